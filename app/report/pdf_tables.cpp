#include "app/report/ink.h"
#include "app/report/pdf_pages.h"

#include <QPainter>

#include <algorithm>
#include <cmath>

namespace app::report {

namespace {

const QString kSans = QStringLiteral("DejaVu Sans");
constexpr double kGap = 6;    // between columns
constexpr double kAir = 2.2;  // above and below a row's words

Face cellFace(const Row& row, Align align) {
    return {kSans, 7.3, false, row.faint ? Tone::Faint : Tone::Ink, 1.36, align};
}

int mostLines(const std::vector<SetText>& cells) {
    int most = 1;
    for (const SetText& cell : cells) most = std::max(most, cell.lines());
    return most;
}

}  // namespace

void PdfPages::tableHead(const Table& table, const std::vector<double>& xs,
                         const std::vector<double>& widths) {
    double height = 0;
    std::vector<SetText> titles;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const Face face{kSans, 6.7, true, Tone::Faint, 1.3, table.columns[i].align};
        titles.push_back(laid(Text(table.columns[i].title), face, widths[i]));
        height = std::max(height, titles.back().height());
    }
    for (std::size_t i = 0; i < titles.size(); ++i)
        drawLines(titles[i], xs[i], m_y + height - titles[i].height(), 0, titles[i].lines());
    m_y += height + 2;
    rule(left(), left() + width(), m_y, kInk, 0.6);
    m_y += 1.5;
    m_blank = false;
}

void PdfPages::block(const Table& table) {
    if (table.rows.empty()) return;
    double weights = 0;
    for (const Column& column : table.columns) weights += column.weight;
    const double share = width() - kGap * double(table.columns.size() - 1);
    std::vector<double> xs;
    std::vector<double> widths;
    double x = left();
    for (const Column& column : table.columns) {
        const double wide = share * column.weight / weights;
        xs.push_back(x);
        widths.push_back(wide);
        x += wide + kGap;
    }
    std::vector<std::vector<SetText>> rows;
    for (const Row& row : table.rows) {
        std::vector<SetText> cells;
        for (std::size_t i = 0; i < table.columns.size(); ++i) {
            const Text empty;
            const Text& text = i < row.cells.size() ? row.cells[i] : empty;
            cells.push_back(laid(text, cellFace(row, table.columns[i].align), widths[i]));
        }
        rows.push_back(std::move(cells));
    }
    const double first = rows.front().front().lineHeight() * mostLines(rows.front());
    need(std::min(30 + first, 150.0));
    tableHead(table, xs, widths);
    drawRows(rows, table, xs, widths);
    m_y += 7;
}

void PdfPages::drawRows(const std::vector<std::vector<SetText>>& rows, const Table& table,
                        const std::vector<double>& xs, const std::vector<double>& widths) {
    for (std::size_t r = 0; r < rows.size(); ++r) {
        const auto& cells = rows[r];
        const double line = cells.front().lineHeight();
        const int lines = mostLines(cells);
        int at = 0;
        bool anchored = false;
        while (at < lines) {
            int fits = int(std::floor((room() - 2 * kAir + 0.01) / line));
            // A row goes whole to the next page unless it is long; then it is cut between lines.
            const bool split = lines - at > 12;
            if (fits < lines - at && (!split || fits < 4)) {
                newPage();
                tableHead(table, xs, widths);
                fits = int(std::floor((room() - 2 * kAir) / line));
            }
            const int n = std::clamp(fits, 1, lines - at);
            if (!anchored) anchorHere(table.rows[r].anchor);
            anchored = true;
            for (std::size_t i = 0; i < cells.size(); ++i)
                if (at < cells[i].lines())
                    drawLines(cells[i], xs[i], m_y + kAir, at, std::min(at + n, cells[i].lines()));
            m_y += n * line + 2 * kAir;
            at += n;
        }
        rule(left(), left() + width(), m_y, kHairline, 0.4);
    }
}

void PdfPages::block(const Figures& figures) {
    std::vector<const Figure*> row;
    double used = 0;
    for (const Figure& figure : figures.items) {
        const double wide = std::min(figure.size.width(), width());
        if (!row.empty() && used + 12 + wide > width() + 0.5) {
            figureRow(row);
            row.clear();
            used = 0;
        }
        used += (row.empty() ? 0 : 12) + wide;
        row.push_back(&figure);
    }
    if (!row.empty()) figureRow(row);
}

void PdfPages::figureRow(const std::vector<const Figure*>& row) {
    const Face face{kSans, 6.9, false, Tone::Faint, 1.35, Align::Left};
    struct Placed {
        double wide;
        double tall;
        SetText caption;
    };
    std::vector<Placed> placed;
    double height = 0;
    double pictures = 0;
    for (const Figure* figure : row) {
        double wide = std::min(figure->size.width(), width());
        double tall = figure->size.height() * wide / figure->size.width();
        const double most = wholePage() - 60;
        if (tall > most) {
            wide *= most / tall;
            tall = most;
        }
        // A narrow picture's caption may use the room beside it.
        const double captionWide = row.size() == 1 ? width() : std::max(wide, 130.0);
        SetText caption = laid(figure->caption, face, captionWide);
        pictures = std::max(pictures, tall);
        height = std::max(height, caption.height());
        placed.push_back({wide, tall, std::move(caption)});
    }
    space(3);
    need(pictures + height + 8);
    double x = left();
    for (std::size_t i = 0; i < row.size(); ++i) {
        if (m_painter != nullptr) {
            m_painter->save();
            m_painter->translate(x * kUnits, m_y * kUnits);
            m_painter->scale(kUnits, kUnits);
            const QRectF box(0, 0, placed[i].wide, placed[i].tall);
            if (row[i]->picture && !row[i]->picture->pixels.isNull())
                m_painter->drawImage(box, row[i]->picture->pixels);
            row[i]->paint(*m_painter, box);
            m_painter->restore();
        }
        if (!row[i]->caption.empty())
            drawLines(placed[i].caption, x, m_y + placed[i].tall + 2, 0, placed[i].caption.lines());
        x += std::max(placed[i].wide, row.size() == 1 ? 0.0 : 130.0) + 12;
    }
    m_y += pictures + (height > 0 ? height + 4 : 0) + 7;
    m_blank = false;
}

}  // namespace app::report
