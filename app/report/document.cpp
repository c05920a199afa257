#include "app/report/document.h"

#include <QChar>

#include <algorithm>

namespace app::report {

Text& Text::add(const QString& words, Tone tone) {
    if (!words.isEmpty()) m_spans.push_back({words, tone, false, false, {}});
    return *this;
}

Text& Text::bold(const QString& words, Tone tone) {
    if (!words.isEmpty()) m_spans.push_back({words, tone, true, false, {}});
    return *this;
}

Text& Text::digest(const QString& hex) {
    if (!hex.isEmpty()) m_spans.push_back({hex, Tone::Ink, false, true, {}});
    return *this;
}

Text& Text::link(const QString& words, const QString& target) {
    if (!words.isEmpty()) m_spans.push_back({words, Tone::Blue, false, false, target});
    return *this;
}

Text& Text::append(const Text& other) {
    m_spans.insert(m_spans.end(), other.m_spans.begin(), other.m_spans.end());
    return *this;
}

QString Text::plain() const {
    QString words;
    for (const Span& span : m_spans) words += span.text;
    return words;
}

namespace {

// Characters that switch the direction of what follows, or are not there to be seen: U+200E/F,
// U+202A … U+202E, U+2066 … U+2069 and the byte order mark inside a text.
bool hidesItself(char32_t c) {
    return c == 0x200E || c == 0x200F || (c >= 0x202A && c <= 0x202E) ||
           (c >= 0x2066 && c <= 0x2069) || c == 0xFEFF || c == 0x200B;
}

bool isControl(char32_t c) {
    return (c < 0x20 && c != '\n') || (c >= 0x7F && c <= 0x9F) || c == 0xFFFE || c == 0xFFFF;
}

}  // namespace

QString shown(const std::string& words) {
    QString out;
    for (const char32_t c : QString::fromUtf8(words.data(), qsizetype(words.size())).toUcs4()) {
        if (c == '\t' || c == 0x2028 || c == 0x2029)
            out += QLatin1Char(' ');
        else if (hidesItself(c) || isControl(c))
            out += QStringLiteral("‹U+%1›").arg(uint(c), 4, 16, QLatin1Char('0')).toUpper();
        else
            out += QString::fromUcs4(&c, 1);
    }
    return out;
}

QString shown(const std::optional<std::string>& words) {
    return words ? shown(*words) : QString();
}

Table withoutEmptyColumns(const Table& table) {
    Table kept;
    for (const Row& row : table.rows) kept.rows.push_back({{}, row.anchor, row.faint});
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const bool speaks = std::any_of(table.rows.begin(), table.rows.end(), [i](const Row& row) {
            return i < row.cells.size() && !row.cells[i].empty();
        });
        if (!speaks) continue;
        kept.columns.push_back(table.columns[i]);
        for (std::size_t r = 0; r < table.rows.size(); ++r)
            kept.rows[r].cells.push_back(i < table.rows[r].cells.size() ? table.rows[r].cells[i]
                                                                        : Text());
    }
    return kept;
}

void Document::heading(int level, const QString& text, const QString& anchor) {
    blocks.emplace_back(Heading{level, text, anchor, {}, {}, false});
}

void Document::paragraph(const Text& text, ParagraphStyle style) {
    if (!text.empty()) blocks.emplace_back(Paragraph{text, style, {}});
}

QString plusMinusNote() {
    return QStringLiteral(
        "± is half the 95 % interval. Where the interval is lopsided, + and − are given apart. "
        "A tolerance is written “allow ±”.");
}

}  // namespace app::report
