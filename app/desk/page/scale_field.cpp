#include "app/desk/page/scale_field.h"

#include "app/desk/page/dimension_words.h"
#include "evidence-core/record/measure.h"

#include <QComboBox>
#include <QLineEdit>

#include <algorithm>

namespace app::desk::page {

namespace record = evidence::record;

ScaleField::ScaleField(QWidget* parent)
    : PointerField(parent),
      m_length(new QLineEdit(this)),
      m_plusMinus(new QLineEdit(this)),
      m_source(new QComboBox(this)),
      m_joins(new QComboBox(this)) {
    setObjectName(QStringLiteral("scaleField"));
    m_length->setObjectName(QStringLiteral("lengthField"));
    m_length->setPlaceholderText(tr("5 ft 3 1/2 in, 1605 mm, or a dimension"));
    m_plusMinus->setObjectName(QStringLiteral("plusMinusField"));
    m_plusMinus->setPlaceholderText(tr("as its source is by default"));
    m_plusMinus->setToolTip(tr("Half of the interval that holds it 95 times in 100."));
    m_source->setObjectName(QStringLiteral("sourceField"));
    m_source->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    addRow(tr("This is"), m_length);
    addRow(tr("±"), m_plusMinus);
    m_joins->setObjectName(QStringLiteral("joinsField"));
    m_joins->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    addRow(tr("Source"), m_source);
    addRow(tr("Scale"), m_joins);
    connect(m_length, &QLineEdit::textChanged, this, &ScaleField::look);
    connect(m_plusMinus, &QLineEdit::textChanged, this, &ScaleField::look);
    connect(m_source, &QComboBox::currentIndexChanged, this, &ScaleField::look);
}

void ScaleField::setSnapshot(std::shared_ptr<const session::Snapshot> snapshot) {
    m_snapshot = std::move(snapshot);
    const QVariant before = m_source->currentData();
    m_source->clear();
    m_source->addItem(tr("none: assumed"), QString());
    for (const auto& source : m_snapshot->reg.sources) {
        if (source.setAside) continue;
        const QString code = QString::fromStdString(source.code.value_or(std::string()));
        m_source->addItem(
            (code + QLatin1Char(' ') + QString::fromStdString(source.title)).trimmed(),
            QString::fromStdString(source.id.text));
    }
    // The same source vouches for several lengths as a rule.
    m_source->setCurrentIndex(std::max(0, m_source->findData(before)));
    complete(m_length, wordsOfAll(m_snapshot->reg, [](const record::Dimension& dimension) {
                 return record::measureOf(dimension.quantity) ==
                        evidence::quantity::Measure::Length;
             }));
    look();
}

void ScaleField::clear() {
    m_length->clear();
    m_plusMinus->clear();
}

void ScaleField::setChoices(const std::vector<ScaleChoice>& choices,
                            const std::optional<record::FrameId>& usual) {
    m_joins->clear();
    for (const ScaleChoice& choice : choices)
        if (choice.takesReferences)
            m_joins->addItem(tr("joins %1").arg(choice.words),
                             QString::fromStdString(choice.frame.text));
    m_joins->addItem(tr("one of its own, for another plane"), QString());
    const int first = usual ? m_joins->findData(QString::fromStdString(usual->text)) : -1;
    m_joins->setCurrentIndex(std::max(0, first));
    showRow(m_joins, m_joins->count() > 1);
}

std::optional<record::FrameId> ScaleField::joined() const {
    const QString frame = m_joins->currentData().toString();
    if (frame.isEmpty()) return std::nullopt;
    return record::FrameId{frame.toStdString()};
}

KnownThing ScaleField::entered() const {
    return {m_length->text(), m_plusMinus->text(),
            record::SourceId{m_source->currentData().toString().toStdString()}};
}

QWidget* ScaleField::fieldAt(const std::string& place) const {
    if (place.find("half_width") != std::string::npos || place.ends_with("/u")) return m_plusMinus;
    if (place.find("source") != std::string::npos) return m_source;
    if (place == "frame") return m_joins;
    return m_length;
}

void ScaleField::look() {
    clearRefusal();
    const auto* dimension =
        m_snapshot ? dimensionMeant(m_snapshot->reg, m_length->text()) : nullptr;
    m_plusMinus->setEnabled(dimension == nullptr);
    m_source->setEnabled(dimension == nullptr);
    if (dimension != nullptr)
        setRemark(tr("Its size, doubt and sources are those of %1.").arg(wordsOf(*dimension)));
    else if (m_source->currentData().toString().isEmpty())
        setRemark(
            tr("Without a source this length is a guess, and what hangs on it rests on a "
               "guess."));
    else
        setRemark({});
}

}  // namespace app::desk::page
