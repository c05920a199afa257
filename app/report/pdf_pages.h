#pragma once

#include "app/report/document.h"
#include "app/report/pdf_finish.h"
#include "app/report/pdf_type.h"

#include <QSizeF>

#include <map>
#include <set>
#include <string>
#include <vector>

class QPainter;
class QPdfWriter;

namespace app::report {

/// Where everything landed: what the contents list, bookmarks and links need.
struct PageMap {
    int pages = 0;
    std::map<QString, PdfPlace> anchors;
    std::vector<PdfBookmark> bookmarks;
    std::vector<PdfLink> links;
    std::set<QString> names;
};

/// Sets a document on pages from top to bottom. Run twice with the same arguments: once without a
/// painter, to learn where everything lands, then with one and the first run's map.
class PdfPages {
  public:
    PdfPages(QSizeF paper, QPdfWriter& writer, QPainter* painter, const PageMap& known);

    [[nodiscard]] PageMap set(const Document& document);

  private:
    void block(const Heading& heading);
    void block(const Paragraph& paragraph);
    void block(const List& list);
    void block(const Facts& facts);
    void block(const Table& table);
    void block(const Figures& figures);
    void block(const Contents& contents);
    void block(const PageBreak& pageBreak);

    void startPage();
    void newPage();
    void headAndFoot();
    /// Starts a new page where less than `height` is left on this one, unless it is still blank.
    void need(double height);
    [[nodiscard]] double left() const { return m_margin; }
    [[nodiscard]] double width() const { return m_paper.width() - 2 * m_margin; }
    [[nodiscard]] double bottom() const { return m_paper.height() - 58; }
    [[nodiscard]] double room() const { return bottom() - m_y; }
    [[nodiscard]] double wholePage() const { return bottom() - m_top; }
    void space(double height);
    void anchorHere(const QString& anchor);

    [[nodiscard]] SetText laid(const Text& text, const Face& face, double width) const;
    /// Text that may run over pages; returns nothing, moves down. `mark` draws beside each slice.
    void flow(const SetText& text, double x);
    void drawLines(const SetText& text, double x, double y, int first, int last);
    void drawRows(const std::vector<std::vector<SetText>>& rows, const Table& table,
                  const std::vector<double>& xs, const std::vector<double>& widths);
    void tableHead(const Table& table, const std::vector<double>& xs,
                   const std::vector<double>& widths);
    void rule(double x1, double x2, double y, const QColor& colour, double thickness);
    void figureRow(const std::vector<const Figure*>& row);

    QSizeF m_paper;
    double m_margin = 60;
    double m_top = 62;
    double m_y = 0;
    int m_page = 0;
    bool m_blank = true;
    QPdfWriter& m_writer;
    QPainter* m_painter;
    const PageMap& m_known;
    PageMap m_map;
    const Document* m_document = nullptr;
};

}  // namespace app::report
