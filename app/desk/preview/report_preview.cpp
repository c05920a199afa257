#include "app/desk/preview/report_preview.h"

#include "app/desk/analyst.h"
#include "app/desk/form/forms.h"
#include "app/desk/form/refusal_sentence.h"
#include "app/desk/look/look.h"
#include "app/desk/open_register.h"
#include "app/desk/preview/asked_first_list.h"
#include "app/desk/preview/filter_bar.h"
#include "app/desk/preview/page_stack.h"
#include "app/desk/preview/report_writer.h"
#include "app/desk/selection.h"

#include <QFileDialog>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSplitter>
#include <QStyle>
#include <QTemporaryDir>

#include <optional>
#include <utility>

namespace app::desk::preview {

class ReportPreview::Insides : public QObject {
  public:
    Insides(ReportPreview& preview, OpenRegister& open, Analyst& analyst, Selection& selection);

    /// Writes the pages anew, or notes that they must be once the preview is seen.
    void refresh();

  private:
    void layOut();
    void listAskedFirst();
    [[nodiscard]] WritingOrder order(std::filesystem::path out) const;
    /// Whether the analysis is of the register as it is: a report never speaks of other evidence
    /// than that of the register it names.
    [[nodiscard]] bool isJudged() const;
    void save(const std::filesystem::path& out);
    void askWhereToSave(const QString& title, const QString& ending);
    void tell(const QString& words, const char* pencil);

    ReportPreview& m_preview;
    OpenRegister& m_open;
    Analyst& m_analyst;
    Selection& m_selection;
    std::shared_ptr<QTemporaryDir> m_folder = std::make_shared<QTemporaryDir>();
    int m_written = 0;  ///< names the next file
    ReportWriter m_pagesWriter;
    std::optional<std::filesystem::path> m_waiting;  ///< to be saved once the evidence is judged
    FilterBar* m_filters = nullptr;
    AskedFirstList* m_asked = nullptr;
    PageStack* m_pages = nullptr;
    QLabel* m_progress = nullptr;
};

ReportPreview::Insides::Insides(ReportPreview& preview, OpenRegister& open, Analyst& analyst,
                                Selection& selection)
    : m_preview(preview),
      m_open(open),
      m_analyst(analyst),
      m_selection(selection),
      m_pagesWriter(open) {
    layOut();
    connect(m_filters, &FilterBar::changed, this, &Insides::refresh);
    connect(&m_analyst, &Analyst::started, this, [this] {
        if (m_preview.isVisible())
            tell(ReportPreview::tr("The evidence is being worked out …"), "blue");
    });
    connect(&m_analyst, &Analyst::judgedAnew, this, [this] {
        refresh();
        if (m_waiting) save(*std::exchange(m_waiting, std::nullopt));
    });
    connect(&m_analyst, &Analyst::failed, this, [this](const evidence::Refusal& refusal) {
        tell(form::refusalSentence(refusal), "red");
    });
    connect(&m_selection, &Selection::changed, this, [this] {
        if (m_filters->kind() == report::Kind::Slip) refresh();
    });
    connect(m_asked, &AskedFirstList::chosen, &m_selection, &Selection::choose);
    connect(m_asked, &AskedFirstList::acknowledgeAsked, this, [this](std::size_t finding) {
        form::acknowledgeForm(m_open, m_analyst, finding, &m_preview)->show();
    });

    connect(&m_pagesWriter, &ReportWriter::started, this,
            [this] { tell(ReportPreview::tr("The report is being written …"), "blue"); });
    connect(&m_pagesWriter, &ReportWriter::written, m_pages, &PageStack::showFile);
    connect(&m_pagesWriter, &ReportWriter::failed, this, [this](const QString& why) {
        m_pages->clear();
        tell(why, "red");
    });
    connect(m_pages, &PageStack::shown, this, [this](int count) {
        tell(count == 1 ? ReportPreview::tr("One page, from the register as it is now.")
                        : ReportPreview::tr("%1 pages, from the register as it is now.").arg(count),
             "graphite");
        Q_EMIT m_preview.ready();
    });
}

void ReportPreview::Insides::layOut() {
    constexpr int kGrid = look::kGrid;
    m_filters = new FilterBar;
    m_asked = new AskedFirstList;
    m_pages = new PageStack;
    m_progress = new QLabel;
    m_progress->setObjectName(QStringLiteral("progress"));
    auto* savePdf = new QPushButton(ReportPreview::tr("Save as PDF …"));
    savePdf->setObjectName(QStringLiteral("savePdf"));
    auto* saveHtml = new QPushButton(ReportPreview::tr("Save as HTML …"));
    saveHtml->setObjectName(QStringLiteral("saveHtml"));
    connect(savePdf, &QPushButton::clicked, this, [this] {
        askWhereToSave(ReportPreview::tr("Save the report as PDF"), QStringLiteral("pdf"));
    });
    connect(saveHtml, &QPushButton::clicked, this, [this] {
        askWhereToSave(ReportPreview::tr("Save the report as HTML"), QStringLiteral("html"));
    });

    auto* head = new QHBoxLayout;
    head->setContentsMargins(2 * kGrid, 2 * kGrid, 2 * kGrid, 2 * kGrid);
    head->setSpacing(2 * kGrid);
    head->addWidget(m_filters);
    head->addStretch();
    head->addWidget(savePdf);
    head->addWidget(saveHtml);
    auto* halves = new QSplitter;
    halves->setChildrenCollapsible(false);
    halves->addWidget(m_asked);
    halves->addWidget(m_pages);
    halves->setStretchFactor(0, 2);
    halves->setStretchFactor(1, 5);
    auto* foot = new QHBoxLayout;
    foot->setContentsMargins(2 * kGrid, kGrid, 2 * kGrid, kGrid);
    foot->addWidget(m_progress, 1);
    foot->addWidget(m_pages->pageNumber());
    auto* all = new QVBoxLayout(&m_preview);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(0);
    all->addLayout(head);
    all->addWidget(halves, 1);
    all->addLayout(foot);
}

void ReportPreview::Insides::refresh() {
    if (!m_preview.isVisible()) return;
    if (!isJudged()) return tell(ReportPreview::tr("The evidence is being worked out …"), "blue");
    const auto judged = m_analyst.judged();
    m_filters->offerComponents(judged->snapshot->reg);
    m_asked->showFindings(judged, m_filters->filter());
    auto pages =
        order(m_folder->filePath(QStringLiteral("report-%1.pdf").arg(++m_written)).toStdString());
    pages.folder = m_folder;
    m_pagesWriter.write(std::move(pages));
}

WritingOrder ReportPreview::Insides::order(std::filesystem::path out) const {
    WritingOrder order;
    order.judged = m_analyst.judged();
    order.request.kind = m_filters->kind();
    order.request.filter = m_filters->filter();
    if (order.request.kind == report::Kind::Slip && !m_selection.now().size.empty())
        order.request.filter.on = m_selection.now().size.text;
    order.request.at = m_open.timeNow();
    order.request.registerDigest = m_open.headDigest();
    order.out = std::move(out);
    return order;
}

void ReportPreview::Insides::askWhereToSave(const QString& title, const QString& ending) {
    if (!m_analyst.judged()) return;
    auto* dialog = new QFileDialog(&m_preview, title);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setAcceptMode(QFileDialog::AcceptSave);
    dialog->setDefaultSuffix(ending);
    dialog->setNameFilter(QStringLiteral("*.") + ending);
    connect(dialog, &QFileDialog::fileSelected, this,
            [this](const QString& path) { save(path.toStdString()); });
    dialog->show();
}

bool ReportPreview::Insides::isJudged() const {
    const auto judged = m_analyst.judged();
    return judged && judged->snapshot == m_open.snapshot();
}

void ReportPreview::Insides::save(const std::filesystem::path& out) {
    if (!isJudged()) {
        m_waiting = out;
        return;
    }
    auto* writer = new ReportWriter(m_open, this);
    connect(writer, &ReportWriter::written, this, [this, writer](const auto& written) {
        tell(ReportPreview::tr("Saved as %1.").arg(QString::fromStdString(written.string())),
             "graphite");
        writer->deleteLater();
    });
    connect(writer, &ReportWriter::failed, this, [this, writer](const QString& why) {
        tell(why, "red");
        writer->deleteLater();
    });
    tell(ReportPreview::tr("The report is being saved …"), "blue");
    writer->write(order(out));
}

void ReportPreview::Insides::tell(const QString& words, const char* pencil) {
    m_progress->setProperty("pencil", QString::fromLatin1(pencil));
    m_progress->style()->polish(m_progress);  // reads the pencil
    m_progress->setText(words);
}

ReportPreview::ReportPreview(OpenRegister& open, Analyst& analyst, Selection& selection,
                             QWidget* parent)
    : QWidget(parent) {
    setObjectName(QStringLiteral("preview"));
    setWindowTitle(tr("Report"));
    m_insides = std::make_unique<Insides>(*this, open, analyst, selection);
}

ReportPreview::~ReportPreview() = default;

void ReportPreview::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    m_insides->refresh();
}

}  // namespace app::desk::preview
