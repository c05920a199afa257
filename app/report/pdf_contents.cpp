#include "app/report/pdf_pages.h"

#include <algorithm>

namespace app::report {

namespace {

const QString kSerif = QStringLiteral("DejaVu Serif");
constexpr double kBetween = 24;  // columns
constexpr double kNumber = 26;   // the page numbers' width

struct Line {
    SetText words;
    SetText page;
    double indent = 0;
    double before = 0;
    [[nodiscard]] double height() const { return before + words.height(); }
};

}  // namespace

// In two columns, as long as each other on the last page.
void PdfPages::block(const Contents&) {
    const double wide = (width() - kBetween) / 2;
    std::vector<Line> lines;
    double rest = 0;
    for (const Block& b : m_document->blocks) {
        const auto* heading = std::get_if<Heading>(&b);
        if (heading == nullptr || heading->level > 2) continue;
        const bool chapter = heading->level == 1;
        const Face face{kSerif, chapter ? 8.8 : 8.2, chapter, Tone::Ink, 1.4, Align::Left};
        Face number = face;
        number.align = Align::Right;
        const auto place = m_known.anchors.find(heading->anchor);
        const QString page = place == m_known.anchors.end() ? QStringLiteral("–")
                                                            : QString::number(place->second.page);
        const double indent = chapter ? 0 : 12;
        lines.push_back(
            {laid(Text().link(heading->text, heading->anchor), face, wide - kNumber - 8 - indent),
             laid(Text(page), number, kNumber), indent, chapter ? 4.0 : 0.0});
        rest += lines.back().height();
    }
    for (std::size_t i = 0; i < lines.size();) {
        double lowest = m_y;
        const double half = rest / 2 + 12;
        for (int column = 0; column < 2; ++column) {
            const double most = column == 0 ? std::min(room(), half) : room();
            const double x = left() + column * (wide + kBetween);
            double used = 0;
            for (; i < lines.size(); ++i) {
                const Line& line = lines[i];
                if (used > 0 && used + line.height() > most) break;
                const double y = m_y + used + line.before;
                drawLines(line.words, x + line.indent, y, 0, line.words.lines());
                drawLines(line.page, x + wide - kNumber, y, 0, 1);
                used += line.height();
                rest -= line.height();
            }
            lowest = std::max(lowest, m_y + used);
        }
        m_y = lowest;
        m_blank = false;
        if (i < lines.size()) newPage();
    }
    m_y += 6;
}

}  // namespace app::report
