#include "app/report/write_pdf.h"

#include "app/report/pdf_finish.h"
#include "app/report/pdf_pages.h"
#include "app/report/whole_file.h"

#include <QMarginsF>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>

#include <filesystem>
#include <system_error>

namespace app::report {

namespace {

void prepare(QPdfWriter& writer, PaperSize paper) {
    writer.setPdfVersion(QPagedPaintDevice::PdfVersion_A1b);
    writer.setResolution(kPdfResolution);
    writer.setPageSize(QPageSize(paper == PaperSize::A4 ? QPageSize::A4 : QPageSize::Letter));
    writer.setPageMargins(QMarginsF(0, 0, 0, 0));
}

}  // namespace

void writePdf(const Document& document, PaperSize paper, const std::filesystem::path& out) {
    const WholeFile drawn(out, ".drawn");
    QSizeF size;
    PageMap known;
    {
        QPdfWriter writer(QString::fromStdString(drawn.path().string()));
        prepare(writer, paper);
        size = writer.pageLayout().pageSize().size(QPageSize::Point);
        // Once to learn where everything lands (twice: the contents list's own length is known
        // after the first), then on paper.
        known = PdfPages(size, writer, nullptr, {}).set(document);
        known = PdfPages(size, writer, nullptr, known).set(document);
        QPainter painter;
        if (!painter.begin(&writer))
            throw std::filesystem::filesystem_error(
                "cannot write the report", out, std::make_error_code(std::errc::permission_denied));
        known = PdfPages(size, writer, &painter, known).set(document);
        painter.end();
    }
    const WholeFile finished(out, ".finished");
    finishPdf(drawn.path(), finished.path(),
              {document.title, document.subject, document.author, document.at}, size.height(),
              known.bookmarks, known.links);
    finished.moveTo(out);
}

}  // namespace app::report
