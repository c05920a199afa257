#include "app/desk/preview/filter_bar.h"

#include "app/desk/look/look.h"
#include "app/report/document.h"
#include "app/report/wording.h"
#include "app/session/components.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QSignalBlocker>

namespace app::desk::preview {

namespace record = evidence::record;

namespace {

QString wordsOf(report::Kind kind) {
    switch (kind) {
        case report::Kind::Provenance:
            return FilterBar::tr("Provenance report, part by part");
        case report::Kind::Short:
            return FilterBar::tr("Short report, for visitors and sponsors");
        case report::Kind::Shop:
            return FilterBar::tr("Build values, for the shop");
        case report::Kind::Slip:
            return FilterBar::tr("Slip, for the chosen size");
        case report::Kind::Departures:
            return FilterBar::tr("Departures from the original");
        case report::Kind::Guesses:
            break;
    }
    return FilterBar::tr("What rests on a guess");
}

}  // namespace

FilterBar::FilterBar(QWidget* parent) : QWidget(parent) {
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(2 * look::kGrid);
    m_kind = addChoice(tr("Report"), QStringLiteral("kind"));
    m_component = addChoice(tr("Component"), QStringLiteral("component"));
    m_grade = addChoice(tr("Grade"), QStringLiteral("grade"));

    for (const auto kind : {report::Kind::Provenance, report::Kind::Short, report::Kind::Shop,
                            report::Kind::Slip, report::Kind::Departures, report::Kind::Guesses})
        m_kind->addItem(wordsOf(kind), QString::fromUtf8(report::nameOf(kind).data()));
    m_component->addItem(tr("all"), QString());
    m_grade->addItem(tr("all"), QString());
    for (const auto& [letter, grade] : record::Names<record::Grade>::all)
        m_grade->addItem(report::gradeSign(grade) + QStringLiteral("  ") + report::gradeName(grade),
                         QString::fromUtf8(letter.data()));
    for (auto* choice : {m_kind, m_component, m_grade})
        connect(choice, &QComboBox::currentIndexChanged, this, &FilterBar::changed);
}

QComboBox* FilterBar::addChoice(const QString& label, const QString& name) {
    auto* words = new QLabel(label);
    words->setProperty("pencil", QStringLiteral("graphite"));
    auto* choice = new QComboBox;
    choice->setObjectName(name);
    choice->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    words->setBuddy(choice);
    layout()->addWidget(words);
    layout()->addWidget(choice);
    return choice;
}

void FilterBar::offerComponents(const record::Register& reg) {
    const QSignalBlocker quiet(m_component);
    const auto before = m_component->currentData().toString();
    while (m_component->count() > 1) m_component->removeItem(1);
    for (const auto& path : session::componentsOf(reg))
        m_component->addItem(report::shown(path), QString::fromStdString(path));
    m_component->setCurrentIndex(std::max(0, m_component->findData(before)));
}

report::Kind FilterBar::kind() const {
    return report::kindNamed(m_kind->currentData().toString().toStdString())
        .value_or(report::Kind::Provenance);
}

record::ReportFilter FilterBar::filter() const {
    record::ReportFilter filter;
    if (const auto path = m_component->currentData().toString(); !path.isEmpty())
        filter.component = path.toStdString();
    if (const auto letter = m_grade->currentData().toString(); !letter.isEmpty())
        filter.grade = record::byName<record::Grade>(letter.toStdString());
    return filter;
}

}  // namespace app::desk::preview
