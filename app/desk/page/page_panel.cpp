#include "app/desk/page/page_panel.h"

#include "app/desk/analyst.h"
#include "app/desk/open_register.h"
#include "app/desk/page/marking.h"
#include "app/desk/page/page_header.h"
#include "app/desk/page/page_marks.h"
#include "app/desk/page/page_scales.h"
#include "app/desk/page/page_view.h"
#include "app/desk/page/tile_source.h"
#include "app/desk/selection.h"
#include "evidence-core/record/lookup.h"

#include <QVBoxLayout>

namespace app::desk::page {

namespace record = evidence::record;

namespace {

constexpr double kMarkU = 0.5;  ///< px per axis, where the register sets no other default

QString expectedOf(Tool tool) {
    switch (tool) {
        case Tool::Look:
            return {};
        case Tool::Scale:
            return PagePanel::tr(
                "Drag along a thing of known length. The ends snap to the edge they meet. "
                "Alt: no snapping. L: to the middle of lines.");
        case Tool::Measure:
            return PagePanel::tr(
                "Drag along the wanted thing. The ends snap to the edge they meet. "
                "Alt: no snapping. L: to the middle of lines.");
        case Tool::Circle:
            return PagePanel::tr("Click three places on the rim, far apart. Alt: no snapping.");
    }
    return {};
}

}  // namespace

class PagePanel::Insides : public QObject {
  public:
    Insides(PagePanel& panel, OpenRegister& open, Analyst& analyst, Selection& selection)
        : m_open(open),
          m_analyst(analyst),
          m_selection(selection),
          m_header(new PageHeader(&panel)),
          m_view(new PageView(m_tiles, &panel)),
          m_marking(new Marking(open, analyst, selection, m_tiles, *m_view)) {
        auto* column = new QVBoxLayout(&panel);
        column->setContentsMargins(0, 0, 0, 0);
        column->setSpacing(0);
        column->addWidget(m_header);
        column->addWidget(m_view, 1);
        panel.setFocusProxy(m_view);

        connect(&selection, &Selection::changed, this, [this] { follow(); });
        connect(&open, &OpenRegister::changed, this, [this] { refresh(); });
        connect(&analyst, &Analyst::judgedAnew, this, [this] { refresh(); });
        connect(&m_tiles, &TileSource::changed, this, [this] { pixelsChanged(); });
        connect(m_header, &PageHeader::pageWanted, this,
                [this](const session::PageOfFile& page) { m_selection.choosePage(page); });
        connect(m_view, &PageView::markClicked, this,
                [this](const record::MarkId& mark) { m_selection.choose(record::any(mark)); });
        connect(m_marking, &Marking::scaleChosen, this, [this] { refresh(); });
        connect(m_marking, &Marking::said, &panel, &PagePanel::said);
        pixelsChanged();
        follow();
    }

    [[nodiscard]] PageView& view() { return *m_view; }
    [[nodiscard]] Marking& marking() { return *m_marking; }
    [[nodiscard]] record::MarkId chosenMark() const { return m_selection.now().mark; }

  private:
    void follow() {
        if (m_selection.now().page != m_page) open(m_selection.now().page);
        refresh();
        m_view->bringIntoView(chosenMark());
    }

    void open(const session::PageOfFile& page) {
        m_page = page;
        const auto held = m_open.snapshot();
        const auto* file = record::find(held->reg, page.file);
        if (file == nullptr) return m_tiles.close();
        m_tiles.open(sheetToRead(m_open, *file, page.page));
    }

    void pixelsChanged() {
        m_view->setInstead(insteadOfPicture());
        m_marking->setPage(m_page);
        m_header->setDamaged(m_tiles.picture() && !m_tiles.picture()->complete());
        m_view->bringIntoView(chosenMark());
    }

    [[nodiscard]] QString insteadOfPicture() const {
        switch (m_tiles.state()) {
            case TileSource::State::Reading:
                return tr("Reading the page …");
            case TileSource::State::Refused:
                return m_tiles.refusal();
            case TileSource::State::Empty:
            case TileSource::State::Ready:
                break;
        }
        return m_open.snapshot()->reg.sources.empty()
                   ? tr("Take in a drawing or a photograph first: drop its file on the portfolio. "
                        "Its page then lies here, to be scaled and measured.")
                   : tr("Choose a source in the portfolio, or a dimension in the ledger: its page "
                        "then lies here.");
    }

    void refresh() {
        const auto held = m_open.snapshot();
        const auto judged = m_analyst.judged();
        m_view->setInstead(insteadOfPicture());
        m_view->setMarks(marksOf(held, judged.get(), m_page, chosenMark()), defaultU(held->reg));
        m_view->setChosen(chosenMark());
        m_marking->refresh();
        m_header->show(record::sourceOf(held->reg, m_page.file), m_page);
        m_header->setScale(scaleWords(judged.get()));
    }

    [[nodiscard]] QString scaleWords(const Judged* judged) const {
        if (m_page.file.empty()) return {};
        if (judged == nullptr) return tr("scale: being worked out …");
        return scalesInWords(m_open.snapshot()->reg, judged->analysis, m_page,
                             m_marking->scaleUsed());
    }

    static double defaultU(const record::Register& reg) {
        return reg.archive.settings ? reg.archive.settings->markU.value_or(kMarkU) : kMarkU;
    }

    OpenRegister& m_open;
    Analyst& m_analyst;
    Selection& m_selection;
    TileSource m_tiles;
    session::PageOfFile m_page;
    PageHeader* m_header;
    PageView* m_view;
    Marking* m_marking;
};

PagePanel::PagePanel(OpenRegister& open, Analyst& analyst, Selection& selection, QWidget* parent)
    : QWidget(parent) {
    setObjectName(QStringLiteral("page"));
    m_insides = std::make_unique<Insides>(*this, open, analyst, selection);
}

PagePanel::~PagePanel() = default;

Tool PagePanel::tool() const {
    return m_insides->marking().tool();
}

void PagePanel::setTool(Tool tool) {
    const bool another = tool != this->tool();
    m_insides->marking().setTool(tool);
    Q_EMIT said(expectedOf(tool));
    if (another) Q_EMIT toolChanged(tool);
}

void PagePanel::zoomIn() {
    m_insides->view().zoomIn();
}

void PagePanel::zoomOut() {
    m_insides->view().zoomOut();
}

void PagePanel::showWhole() {
    m_insides->view().showWhole();
}

void PagePanel::showChosen() {
    m_insides->view().showClosely(m_insides->chosenMark());
}

void PagePanel::showGlass(bool shown) {
    m_insides->view().showGlass(shown);
}

}  // namespace app::desk::page
