#include "app/report/write_html.h"

#include "app/report/figure/grade_mark.h"
#include "app/report/html_style.h"
#include "app/report/ink.h"
#include "app/report/svg_figure.h"
#include "app/report/whole_file.h"

#include <QPainter>

#include <cerrno>
#include <cmath>
#include <fstream>
#include <set>
#include <system_error>

namespace app::report {

namespace {

constexpr double kEnlarged = 1.6;  // screen pixels to a point: type of 7 points becomes legible

QString escaped(const QString& words) {
    QString text = words.toHtmlEscaped();
    text.replace(QLatin1Char('\''), QStringLiteral("&#39;"));
    return text;
}

class HtmlText {
  public:
    explicit HtmlText(const Document& document) : m_document(document) {
        for (const Block& block : document.blocks) {
            if (const auto* heading = std::get_if<Heading>(&block)) m_known.insert(heading->anchor);
            if (const auto* paragraph = std::get_if<Paragraph>(&block))
                m_known.insert(paragraph->anchor);
            if (const auto* table = std::get_if<Table>(&block))
                for (const Row& row : table->rows) m_known.insert(row.anchor);
        }
        m_known.erase(QString());
    }

    QByteArray all() {
        out("<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">\n<head>\n"
            "<meta charset=\"utf-8\"/>\n"
            "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
            "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
            "style-src 'unsafe-inline'; img-src data:\"/>\n<meta name=\"generator\" "
            "content=\"Lostlines\"/>\n");
        out("<title>" + escaped(m_document.title.simplified()) + "</title>\n<style>");
        m_bytes += htmlStyle();
        out("</style>\n</head>\n<body>\n<main>\n");
        for (const Block& b : m_document.blocks)
            std::visit([this](const auto& content) { block(content); }, b);
        out("</main>\n<footer class=\"small\">" + escaped(m_document.footNote) + " " +
            escaped(m_document.runningHead) + "</footer>\n</body>\n</html>\n");
        return m_bytes;
    }

  private:
    void out(const QString& html) { m_bytes += html.toUtf8(); }

    // An id once only, and only where somebody gave one.
    QString idOf(const QString& anchor) {
        if (anchor.isEmpty() || !m_given.insert(anchor).second) return {};
        return " id=\"" + escaped(anchor) + "\"";
    }

    QString words(const Text& text) const {
        QString html;
        for (const Span& span : text.spans()) {
            QString inner = escaped(span.text);
            inner.replace(QLatin1Char('\n'), QStringLiteral("<br/>"));
            if (span.fixedWidth) inner = "<code>" + inner + "</code>";
            if (span.bold) inner = "<strong>" + inner + "</strong>";
            if (!span.target.isEmpty()) {
                if (m_known.contains(span.target))
                    inner = "<a href=\"#" + escaped(span.target) + "\">" + inner + "</a>";
            } else if (span.tone == Tone::Faint) {
                inner = "<span class=\"faint\">" + inner + "</span>";
            } else if (span.tone == Tone::Red) {
                inner = "<span class=\"red\">" + inner + "</span>";
            } else if (span.tone == Tone::Blue) {
                inner = "<span class=\"blue\">" + inner + "</span>";
            }
            html += inner;
        }
        return html;
    }

    void block(const Heading& h) {
        const QString tag = QStringLiteral("h%1").arg(h.level + 1);
        out("<" + tag + idOf(h.anchor) + ">");
        if (h.level < 3) {
            out(escaped(h.text) + "</" + tag + ">\n");
            return;
        }
        if (h.grade) {
            Figure mark;
            mark.size = QSizeF(14, 14);
            mark.description = figure::gradeName(*h.grade);
            mark.paint = [&h](QPainter& painter, const QRectF& rect) {
                figure::drawGradeMark(painter, rect.adjusted(1, 1, -1, -1), *h.grade, kInk, kPaper);
            };
            m_bytes += inlineSvg(mark, QStringLiteral("mark"), 1, m_pictures);
        }
        out("<span class=\"name\">" + escaped(h.text) + "</span>");
        if (!h.aside.empty()) out("<span class=\"aside\">" + words(h.aside) + "</span>");
        out("</" + tag + ">\n");
    }

    void block(const Paragraph& p) {
        const auto as = [&](const char* tag, const char* css) {
            out(QStringLiteral("<%1%2%3>")
                    .arg(QString::fromUtf8(tag), idOf(p.anchor),
                         *css == '\0'
                             ? QString()
                             : QStringLiteral(" class=\"%1\"").arg(QString::fromUtf8(css))));
            out(words(p.text) + QStringLiteral("</%1>\n").arg(QString::fromUtf8(tag)));
        };
        switch (p.style) {
            case ParagraphStyle::Title:
                return as("h1", "");
            case ParagraphStyle::Subtitle:
                return as("p", "subtitle");
            case ParagraphStyle::Lead:
                return as("p", "lead");
            case ParagraphStyle::Small:
                return as("p", "small");
            case ParagraphStyle::Label:
                return as("p", "label");
            case ParagraphStyle::Quote:
                return as("p", "quote");
            case ParagraphStyle::Caution:
                return as("p", "caution");
            case ParagraphStyle::Note:
                return as("p", "note");
            case ParagraphStyle::Body:
                break;
        }
        as("p", "");
    }

    void block(const List& list) {
        if (list.items.empty()) return;
        out("<ul>\n");
        for (const Text& item : list.items) out("<li>" + words(item) + "</li>\n");
        out("</ul>\n");
    }

    void block(const Facts& facts) {
        if (facts.rows.empty()) return;
        out("<dl>\n");
        for (const auto& [label, text] : facts.rows)
            out("<dt>" + escaped(label) + "</dt><dd>" + words(text) + "</dd>\n");
        out("</dl>\n");
    }

    void block(const Table& table) {
        if (table.rows.empty()) return;
        const auto css = [&](std::size_t i) {
            return table.columns[i].align == Align::Right ? QStringLiteral(" class=\"right\"")
                                                          : QString();
        };
        out("<div class=\"scroll\"><table>\n<colgroup>");
        double weights = 0;
        for (const Column& column : table.columns) weights += column.weight;
        for (const Column& column : table.columns)
            out(QStringLiteral("<col style=\"width:%1%\"/>")
                    .arg(QString::number(100 * column.weight / weights, 'f', 1)));
        out("</colgroup>\n<thead><tr>");
        for (std::size_t i = 0; i < table.columns.size(); ++i)
            out("<th scope=\"col\"" + css(i) + ">" + escaped(table.columns[i].title) + "</th>");
        out("</tr></thead>\n<tbody>\n");
        for (const Row& row : table.rows) {
            out("<tr" + idOf(row.anchor) +
                (row.faint ? QStringLiteral(" class=\"faint\"") : QString()) + ">");
            for (std::size_t i = 0; i < table.columns.size(); ++i)
                out("<td" + css(i) + ">" +
                    (i < row.cells.size() ? words(row.cells[i]) : QString()) + "</td>");
            out("</tr>\n");
        }
        out("</tbody></table></div>\n");
    }

    void block(const Figures& figures) {
        out("<div class=\"figures\">\n");
        for (const Figure& figure : figures.items) {
            out(QStringLiteral("<figure style=\"width:%1px\">")
                    .arg(std::lround(std::ceil(figure.size.width()) * kEnlarged)));
            m_bytes += inlineSvg(figure, QStringLiteral("drawing"), kEnlarged, m_pictures);
            if (!figure.caption.empty())
                out("<figcaption>" + words(figure.caption) + "</figcaption>");
            out("</figure>\n");
        }
        out("</div>\n");
    }

    void block(const Contents&) {
        out("<nav aria-label=\"Contents\"><ol>\n");
        bool item = false;
        bool inner = false;
        for (const Block& b : m_document.blocks) {
            const auto* h = std::get_if<Heading>(&b);
            if (h == nullptr || h->level > 2 || h->anchor.isEmpty()) continue;
            const QString link =
                "<a href=\"#" + escaped(h->anchor) + "\">" + escaped(h->text) + "</a>";
            if (h->level == 1) {
                if (inner) out("</li></ol>");
                if (item) out("</li>\n");
                inner = false;
                item = true;
                out("<li>" + link);
            } else {
                out(inner ? QStringLiteral("</li>") : QStringLiteral("<ol>"));
                inner = true;
                out("<li>" + link);
            }
        }
        if (inner) out("</li></ol>");
        if (item) out("</li>");
        out("</ol></nav>\n");
    }

    void block(const PageBreak&) {}

    const Document& m_document;
    std::set<QString> m_known;
    std::set<QString> m_given;
    SvgPictures m_pictures;
    QByteArray m_bytes;
};

}  // namespace

QByteArray htmlOf(const Document& document) {
    return HtmlText(document).all();
}

void writeHtml(const Document& document, const std::filesystem::path& out) {
    const QByteArray bytes = htmlOf(document);
    const WholeFile file(out, ".part");
    std::ofstream stream(file.path(), std::ios::binary);
    stream.write(bytes.constData(), bytes.size());
    stream.close();
    if (!stream)
        throw std::filesystem::filesystem_error("cannot write the report", out,
                                                std::error_code(errno, std::generic_category()));
    file.moveTo(out);
}

}  // namespace app::report
