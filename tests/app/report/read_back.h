#pragma once

#include <QString>
#include <QStringList>

#include <filesystem>

/// What a written report says to programs that are not ours.
namespace tests::report {

/// The words of a PDF in the order they were written, by `pdftotext -raw`.
[[nodiscard]] QString pdfWords(const std::filesystem::path& pdf);

/// The same without any white space: digests and long names are broken over lines.
[[nodiscard]] QString pressed(const QString& words);

/// What `qpdf --check` complains of; empty where the file is sound.
[[nodiscard]] QString pdfComplaints(const std::filesystem::path& pdf);

/// Words of a PDF that stand in the margins of their page (30 points) or on one another, with
/// where.
[[nodiscard]] QStringList wordsAstray(const std::filesystem::path& pdf);

/// Number of pictures stored in a PDF.
[[nodiscard]] int pdfPictures(const std::filesystem::path& pdf);

/// An HTML report as a strict XML parser sees it.
struct ReadHtml {
    QString complaint;      ///< empty where it is well-formed
    QString words;          ///< all text outside <style>
    QStringList ids;        ///< in order, with repeats
    QStringList targets;    ///< of links and uses within the file, without the '#'
    QStringList forbidden;  ///< scripts, handlers, and whatever would fetch something
    int pictures = 0;       ///< data URIs
};
[[nodiscard]] ReadHtml readHtml(const std::filesystem::path& html);

}  // namespace tests::report
