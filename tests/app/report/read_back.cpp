#include "tests/app/report/read_back.h"

#include <QFile>
#include <QProcess>
#include <QRectF>
#include <QRegularExpression>
#include <QSet>
#include <QXmlStreamReader>
#include <gtest/gtest.h>

#include <algorithm>
#include <utility>
#include <vector>

namespace tests::report {

namespace {

QString text(const std::filesystem::path& path) {
    return QString::fromStdString(path.string());
}

struct Ended {
    int status = -1;
    QString out;
    QString err;
};

Ended run(const QString& program, const QStringList& arguments) {
    QProcess process;
    process.start(program, arguments);
    if (!process.waitForFinished(60000)) ADD_FAILURE() << program.toStdString() << " did not end";
    return {process.exitCode(), QString::fromUtf8(process.readAllStandardOutput()),
            QString::fromUtf8(process.readAllStandardError())};
}

void take(const QXmlStreamReader& xml, ReadHtml& read) {
    static const QSet<QString> kFetches{
        QStringLiteral("script"), QStringLiteral("iframe"), QStringLiteral("object"),
        QStringLiteral("embed"),  QStringLiteral("link"),   QStringLiteral("base"),
        QStringLiteral("form"),   QStringLiteral("img"),    QStringLiteral("foreignObject")};
    if (kFetches.contains(xml.name().toString())) read.forbidden << xml.name().toString();
    for (const auto& attribute : xml.attributes()) {
        const QString name = attribute.qualifiedName().toString().toLower();
        const QString value = attribute.value().toString();
        if (name == QLatin1String("id")) read.ids << value;
        const bool refers = name == QLatin1String("href") || name == QLatin1String("src") ||
                            name == QLatin1String("xlink:href");
        const bool stored = value.startsWith(QLatin1String("data:image/jpeg;base64,"));
        if (refers && stored)
            ++read.pictures;
        else if (refers && value.startsWith(QLatin1Char('#')))
            read.targets << value.mid(1);
        else if (refers || name.startsWith(QLatin1String("on")) ||
                 value.contains(QLatin1String("url(")))
            read.forbidden << name + QLatin1Char('=') + value.left(60);
    }
}

}  // namespace

QString pdfWords(const std::filesystem::path& pdf) {
    return run(QStringLiteral("pdftotext"),
               {QStringLiteral("-raw"), text(pdf), QStringLiteral("-")})
        .out;
}

QString pressed(const QString& words) {
    static const QRegularExpression kSpace(QStringLiteral("\\s+"),
                                           QRegularExpression::UseUnicodePropertiesOption);
    return QString(words).remove(kSpace);
}

QString pdfComplaints(const std::filesystem::path& pdf) {
    const Ended ended = run(QStringLiteral("qpdf"), {QStringLiteral("--check"), text(pdf)});
    return ended.status == 0 ? ended.err : ended.out + ended.err;
}

QStringList wordsAstray(const std::filesystem::path& pdf) {
    const Ended ended =
        run(QStringLiteral("pdftotext"), {QStringLiteral("-bbox"), text(pdf), QStringLiteral("-")});
    static const QRegularExpression kPage(
        QStringLiteral("<page width=\"([\\d.]+)\" height=\"([\\d.]+)\""));
    static const QRegularExpression kWord(
        QStringLiteral("<word xMin=\"(-?[\\d.]+)\" yMin=\"(-?[\\d.]+)\" xMax=\"(-?[\\d.]+)\" "
                       "yMax=\"(-?[\\d.]+)\">(.*)</word>"));
    constexpr double kMargin = 30;
    QStringList astray;
    QRectF paper;
    std::vector<std::pair<QRectF, QString>> onPage;
    int words = 0;
    for (const QString& line : ended.out.split(QLatin1Char('\n'))) {
        if (const auto page = kPage.match(line); page.hasMatch()) {
            paper = QRectF(kMargin, 0, page.captured(1).toDouble() - 2 * kMargin,
                           page.captured(2).toDouble());
            onPage.clear();
        }
        const auto word = kWord.match(line);
        if (!word.hasMatch()) continue;
        ++words;
        const QRectF box(QPointF(word.captured(1).toDouble(), word.captured(2).toDouble()),
                         QPointF(word.captured(3).toDouble(), word.captured(4).toDouble()));
        if (!paper.contains(box)) astray << word.captured(0);
        // Boxes are as tall as the font: lines that follow closely touch by a little.
        for (const auto& [other, said] : onPage) {
            const QRectF both = box.intersected(other);
            if (both.width() > 1 && both.height() > 0.5 * std::min(box.height(), other.height()))
                astray << word.captured(5) + QStringLiteral(" on ") + said;
        }
        onPage.emplace_back(box, word.captured(5));
    }
    if (words == 0) astray << QStringLiteral("no word at all");
    return astray;
}

int pdfPictures(const std::filesystem::path& pdf) {
    const Ended ended = run(QStringLiteral("pdfimages"), {QStringLiteral("-list"), text(pdf)});
    static const QRegularExpression kRow(QStringLiteral("^\\s*\\d+\\s+\\d+\\s+(image|smask)\\b"),
                                         QRegularExpression::MultilineOption);
    int pictures = 0;
    for (auto it = kRow.globalMatch(ended.out); it.hasNext(); it.next()) ++pictures;
    return pictures;
}

ReadHtml readHtml(const std::filesystem::path& html) {
    ReadHtml read;
    QFile file(text(html));
    if (!file.open(QIODevice::ReadOnly)) {
        read.complaint = file.errorString();
        return read;
    }
    QXmlStreamReader xml(&file);
    int style = 0;
    while (!xml.atEnd()) {
        xml.readNext();
        if (xml.isStartElement()) {
            if (xml.name() == QLatin1String("style")) ++style;
            take(xml, read);
        } else if (xml.isEndElement() && xml.name() == QLatin1String("style")) {
            --style;
        } else if (xml.isCharacters()) {
            if (style == 0)
                read.words += xml.text().toString();
            else if (xml.text().contains(QLatin1String("url(")) ||
                     xml.text().contains(QLatin1String("@import")))
                read.forbidden << QStringLiteral("style that fetches");
        }
    }
    if (xml.hasError())
        read.complaint = QStringLiteral("line %1: %2").arg(xml.lineNumber()).arg(xml.errorString());
    return read;
}

}  // namespace tests::report
