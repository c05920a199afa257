#pragma once

#include <QRectF>
#include <QString>

#include <filesystem>
#include <string>
#include <vector>

/// What a painter cannot say: bookmarks, links, and metadata that do not depend on the moment.
namespace app::report {

/// A place on a page, points from the top left; pages count from 1.
struct PdfPlace {
    int page = 1;
    double y = 0;
};

struct PdfBookmark {
    int level = 1;
    QString title;
    PdfPlace place;
};

struct PdfLink {
    int page = 1;
    QRectF rect;
    PdfPlace target;
};

struct PdfAbout {
    QString title;
    QString subject;
    QString author;
    std::string at;  ///< RFC 3339 in UTC
};

/// Rewrites the PDF/A-1b file `in` as `out` with bookmarks, links and its own metadata; the result
/// is PDF/A-1b again (ISO 19005-1:2005) and the same, byte for byte, for the same arguments.
void finishPdf(const std::filesystem::path& in, const std::filesystem::path& out,
               const PdfAbout& about, double pageHeight, const std::vector<PdfBookmark>& bookmarks,
               const std::vector<PdfLink>& links);

}  // namespace app::report
