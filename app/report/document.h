#pragma once

#include "evidence-core/record/value.h"

#include <QColor>
#include <QImage>
#include <QRectF>
#include <QSizeF>
#include <QString>

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

class QPainter;

/// What a report says, once, before anybody decides how it looks on paper or in a browser.
/// Section builders fill a Document; `write_pdf` and `write_html` read it. No writer adds facts.
namespace app::report {

enum class Tone { Ink, Faint, Red, Blue };

/// A run of words in one dress. `target` is the anchor of a place in the same document.
struct Span {
    QString text;
    Tone tone = Tone::Ink;
    bool bold = false;
    bool fixedWidth = false;  ///< digests
    QString target;
};

/// A paragraph's or a cell's words. Text from the register comes in through `shown`.
class Text {
  public:
    Text() = default;
    Text(const QString& words) { add(words); }  // NOLINT(google-explicit-constructor)
    Text(const char* words) {                   // NOLINT(google-explicit-constructor)
        add(QString::fromUtf8(words));
    }

    Text& add(const QString& words, Tone tone = Tone::Ink);
    Text& bold(const QString& words, Tone tone = Tone::Ink);
    Text& digest(const QString& hex);
    Text& link(const QString& words, const QString& target);
    Text& append(const Text& other);

    [[nodiscard]] bool empty() const { return m_spans.empty(); }
    [[nodiscard]] const std::vector<Span>& spans() const { return m_spans; }
    [[nodiscard]] QString plain() const;

  private:
    std::vector<Span> m_spans;
};

/// Words of the register made fit for print: UTF-8 read, line breaks kept, other control characters
/// and invisible direction switches shown by name, so that no title can pretend to be another.
[[nodiscard]] QString shown(const std::string& words);
[[nodiscard]] QString shown(const std::optional<std::string>& words);

/// A heading opens a section. Levels 1 and 2 stand in the contents list; all levels are bookmarks.
struct Heading {
    int level = 1;
    QString text;
    QString anchor;
    std::optional<evidence::record::Grade> grade;  ///< drawn as its mark before the words
    Text aside;                                    ///< set at the right end of the line
    bool newPage = false;
};

enum class ParagraphStyle { Title, Subtitle, Lead, Body, Small, Label, Quote, Caution, Note };

struct Paragraph {
    Text text;
    ParagraphStyle style = ParagraphStyle::Body;
    QString anchor;
};

struct List {
    std::vector<Text> items;
};

/// Label and words, row by row: what stands beside a dimension's name.
struct Facts {
    std::vector<std::pair<QString, Text>> rows;
    void add(const QString& label, const Text& words) {
        if (!words.empty()) rows.emplace_back(label, words);
    }
};

enum class Align { Left, Right };

struct Column {
    QString title;
    double weight = 1;  ///< share of the width, relative to the other columns
    Align align = Align::Left;
};

struct Row {
    std::vector<Text> cells;
    QString anchor;
    bool faint = false;  ///< set aside, echo
};

struct Table {
    std::vector<Column> columns;
    std::vector<Row> rows;
};

/// The table without the columns in which no row says anything.
[[nodiscard]] Table withoutEmptyColumns(const Table& table);

/// Pixels cut out of a page. Figures that show the same ones share one object, so that a writer can
/// store them once.
struct Picture {
    QImage pixels;  ///< opaque; null where there is nothing to show
};

/// A drawing in points (1/72 in): `paint` fills the rectangle it is given, over the picture where
/// there is one. It never draws translucently (PDF/A-1b forbids it) and gives the same drawing each
/// time.
struct Figure {
    QSizeF size;  ///< points, as wanted; a writer may shrink it in proportion
    std::shared_ptr<const Picture> picture;
    std::function<void(QPainter&, const QRectF&)> paint;
    Text caption;
    QString description;  ///< what it shows, for those who cannot see it
};

/// Figures side by side while they fit, else below each other.
struct Figures {
    std::vector<Figure> items;
};

/// The list of sections, made by the writer.
struct Contents {};
struct PageBreak {};

using Block = std::variant<Heading, Paragraph, List, Facts, Table, Figures, Contents, PageBreak>;

struct Document {
    QString title;
    QString subject;
    QString author;
    QString runningHead;  ///< at the head of each page
    QString footNote;     ///< at the foot of each page: what ± means
    std::string at;       ///< RFC 3339 in UTC: the time of writing
    std::vector<Block> blocks;

    void heading(int level, const QString& text, const QString& anchor);
    void paragraph(const Text& text, ParagraphStyle style = ParagraphStyle::Body);
    void add(Block block) { blocks.push_back(std::move(block)); }
};

/// The words under every page of every kind of report.
[[nodiscard]] QString plusMinusNote();

}  // namespace app::report
