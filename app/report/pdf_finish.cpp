#include "app/report/pdf_finish.h"

#include <QCryptographicHash>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>
#include <qpdf/QPDFWriter.hh>

#include <algorithm>
#include <map>
#include <utility>

namespace app::report {

namespace {

using Handle = QPDFObjectHandle;

Handle real(double value) {
    return Handle::newReal(value, 2);
}

Handle destination(const std::vector<QPDFPageObjectHelper>& pages, const PdfPlace& place,
                   double pageHeight) {
    const auto at = static_cast<std::size_t>(std::max(1, place.page)) - 1;
    Handle array = Handle::newArray();
    QPDFPageObjectHelper page = pages.at(std::min(at, pages.size() - 1));
    array.appendItem(page.getObjectHandle());
    array.appendItem(Handle::newName("/XYZ"));
    array.appendItem(real(0));
    array.appendItem(real(pageHeight - place.y + 6));
    array.appendItem(Handle::newNull());
    return array;
}

// A level of the outline: bookmarks [first, last) of which the first has the level of them all.
int hang(QPDF& pdf, Handle& parent, const std::vector<PdfBookmark>& bookmarks, std::size_t first,
         std::size_t last, const std::vector<QPDFPageObjectHelper>& pages, double pageHeight) {
    const int level = bookmarks[first].level;
    std::vector<Handle> items;
    std::size_t i = first;
    while (i < last) {
        std::size_t next = i + 1;
        while (next < last && bookmarks[next].level > level) ++next;
        Handle item = pdf.makeIndirectObject(Handle::newDictionary());
        item.replaceKey("/Title", Handle::newUnicodeString(bookmarks[i].title.toStdString()));
        item.replaceKey("/Parent", parent);
        item.replaceKey("/Dest", destination(pages, bookmarks[i].place, pageHeight));
        if (next > i + 1) {
            const int inside = hang(pdf, item, bookmarks, i + 1, next, pages, pageHeight);
            // Closed: a reader opens what he wants.
            item.replaceKey("/Count", Handle::newInteger(-inside));
        }
        items.push_back(item);
        i = next;
    }
    for (std::size_t k = 0; k < items.size(); ++k) {
        if (k > 0) items[k].replaceKey("/Prev", items[k - 1]);
        if (k + 1 < items.size()) items[k].replaceKey("/Next", items[k + 1]);
    }
    parent.replaceKey("/First", items.front());
    parent.replaceKey("/Last", items.back());
    return static_cast<int>(items.size());
}

std::string escaped(const QString& words) {
    return words.toHtmlEscaped().toStdString();
}

// 2026-05-01T10:00:00Z → D:20260501100000Z
std::string pdfDate(const std::string& at) {
    std::string digits;
    for (const char c : at.substr(0, 19))
        if (c >= '0' && c <= '9') digits += c;
    digits.resize(14, '0');
    return "D:" + digits + "Z";
}

std::string xmp(const PdfAbout& about, const std::string& date) {
    const auto alternative = [](const char* name, const QString& words) {
        if (words.isEmpty()) return std::string();
        return std::string("<dc:") + name + "><rdf:Alt><rdf:li xml:lang=\"x-default\">" +
               escaped(words) + "</rdf:li></rdf:Alt></dc:" + name + ">\n";
    };
    std::string text =
        "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
        "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\"><rdf:RDF "
        "xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
        "<rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\">\n";
    text += alternative("title", about.title);
    text += alternative("description", about.subject);
    if (!about.author.isEmpty())
        text += "<dc:creator><rdf:Seq><rdf:li>" + escaped(about.author) +
                "</rdf:li></rdf:Seq></dc:creator>\n";
    text +=
        "</rdf:Description>\n<rdf:Description rdf:about=\"\" "
        "xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\">"
        "<xmp:CreatorTool>Lostlines</xmp:CreatorTool><xmp:CreateDate>" +
        date + "</xmp:CreateDate><xmp:ModifyDate>" + date +
        "</xmp:ModifyDate></rdf:Description>\n"
        "<rdf:Description rdf:about=\"\" xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\">"
        "<pdf:Producer>Lostlines</pdf:Producer></rdf:Description>\n"
        "<rdf:Description rdf:about=\"\" xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\">"
        "<pdfaid:part>1</pdfaid:part><pdfaid:conformance>B</pdfaid:conformance>"
        "</rdf:Description>\n</rdf:RDF></x:xmpmeta>\n<?xpacket end=\"w\"?>";
    return text;
}

// Six letters made of a font's own bytes.
std::string subsetTag(Handle descriptor) {
    for (const char* key : {"/FontFile2", "/FontFile3", "/FontFile"}) {
        Handle file = descriptor.getKey(key);
        if (!file.isStream()) continue;
        const auto bytes = file.getStreamData();
        const QByteArray digest = QCryptographicHash::hash(
            QByteArrayView(bytes->getBuffer(), qsizetype(bytes->getSize())),
            QCryptographicHash::Sha256);
        std::string tag;
        for (int i = 0; i < 6; ++i) tag += char('A' + static_cast<unsigned char>(digest[i]) % 26);
        return tag;
    }
    return "AAAAAA";
}

// The painter's subset tags follow the order of a hash table, which differs from run to run.
void nameSubsets(QPDF& pdf) {
    std::map<std::string, std::string> names;
    std::vector<Handle> objects = pdf.getAllObjects();
    for (Handle& object : objects) {
        if (!object.isDictionaryOfType("/FontDescriptor")) continue;
        const std::string name = object.getKey("/FontName").getName();
        const auto plus = name.find('+');
        if (plus == 7) names[name] = "/" + subsetTag(object) + name.substr(plus);
    }
    for (Handle& object : objects) {
        if (!object.isDictionary()) continue;
        for (const char* key : {"/FontName", "/BaseFont"}) {
            Handle name = object.getKey(key);
            if (!name.isName()) continue;
            const auto known = names.find(name.getName());
            if (known != names.end()) object.replaceKey(key, Handle::newName(known->second));
        }
    }
}

void tellAbout(QPDF& pdf, const PdfAbout& about) {
    const std::string date = about.at.substr(0, 19) + "Z";
    Handle info = Handle::newDictionary();
    const auto say = [&](const char* key, const QString& words) {
        if (!words.isEmpty()) info.replaceKey(key, Handle::newUnicodeString(words.toStdString()));
    };
    say("/Title", about.title);
    say("/Subject", about.subject);
    say("/Author", about.author);
    say("/Creator", QStringLiteral("Lostlines"));
    say("/Producer", QStringLiteral("Lostlines"));
    info.replaceKey("/CreationDate", Handle::newString(pdfDate(about.at)));
    info.replaceKey("/ModDate", Handle::newString(pdfDate(about.at)));
    pdf.getTrailer().replaceKey("/Info", pdf.makeIndirectObject(info));
    Handle stream = Handle::newStream(&pdf, xmp(about, date));
    stream.getDict().replaceKey("/Type", Handle::newName("/Metadata"));
    stream.getDict().replaceKey("/Subtype", Handle::newName("/XML"));
    pdf.getRoot().replaceKey("/Metadata", stream);
}

}  // namespace

void finishPdf(const std::filesystem::path& in, const std::filesystem::path& out,
               const PdfAbout& about, double pageHeight, const std::vector<PdfBookmark>& bookmarks,
               const std::vector<PdfLink>& links) {
    QPDF pdf;
    pdf.processFile(in.c_str());
    const std::vector<QPDFPageObjectHelper> pages = QPDFPageDocumentHelper(pdf).getAllPages();
    tellAbout(pdf, about);
    nameSubsets(pdf);
    Handle root = pdf.getRoot();
    root.replaceKey("/Lang", Handle::newString("en"));
    root.replaceKey("/PageMode", Handle::newName("/UseOutlines"));
    Handle view = Handle::newDictionary();
    view.replaceKey("/DisplayDocTitle", Handle::newBool(true));
    root.replaceKey("/ViewerPreferences", view);
    if (!bookmarks.empty()) {
        Handle outline = pdf.makeIndirectObject(Handle::newDictionary());
        outline.replaceKey("/Type", Handle::newName("/Outlines"));
        const int open = hang(pdf, outline, bookmarks, 0, bookmarks.size(), pages, pageHeight);
        outline.replaceKey("/Count", Handle::newInteger(open));
        root.replaceKey("/Outlines", outline);
    }
    for (const PdfLink& link : links) {
        Handle annotation = Handle::newDictionary();
        annotation.replaceKey("/Type", Handle::newName("/Annot"));
        annotation.replaceKey("/Subtype", Handle::newName("/Link"));
        Handle rect = Handle::newArray();
        rect.appendItem(real(link.rect.left()));
        rect.appendItem(real(pageHeight - link.rect.bottom()));
        rect.appendItem(real(link.rect.right()));
        rect.appendItem(real(pageHeight - link.rect.top()));
        annotation.replaceKey("/Rect", rect);
        Handle border = Handle::newArray();
        for (int i = 0; i < 3; ++i) border.appendItem(Handle::newInteger(0));
        annotation.replaceKey("/Border", border);
        annotation.replaceKey("/F", Handle::newInteger(4));  // printed: PDF/A-1 asks for it
        annotation.replaceKey("/Dest", destination(pages, link.target, pageHeight));
        QPDFPageObjectHelper page = pages.at(static_cast<std::size_t>(link.page) - 1);
        Handle dictionary = page.getObjectHandle();
        if (!dictionary.getKey("/Annots").isArray())
            dictionary.replaceKey("/Annots", Handle::newArray());
        dictionary.getKey("/Annots").appendItem(pdf.makeIndirectObject(annotation));
    }
    pdf.getTrailer().removeKey("/ID");  // the painter's is random
    QPDFWriter writer(pdf, out.c_str());
    writer.setObjectStreamMode(qpdf_o_disable);  // PDF/A-1 is PDF 1.4
    writer.setDeterministicID(true);
    writer.setPreserveEncryption(false);
    writer.write();
}

}  // namespace app::report
