#include "app/desk/page/measure_field.h"

#include "app/desk/page/dimension_words.h"
#include "app/session/components.h"

#include <QComboBox>
#include <QLineEdit>

namespace app::desk::page {

namespace record = evidence::record;

MeasureField::MeasureField(QWidget* parent)
    : PointerField(parent),
      m_name(new QLineEdit(this)),
      m_component(new QLineEdit(this)),
      m_scale(new QComboBox(this)) {
    setObjectName(QStringLiteral("measureField"));
    m_name->setObjectName(QStringLiteral("nameField"));
    m_name->setPlaceholderText(tr("a new name, or a dimension"));
    m_component->setObjectName(QStringLiteral("componentField"));
    m_component->setPlaceholderText(tr("such as Body/Roof/Hoop 3"));
    addRow(tr("Name"), m_name);
    m_scale->setObjectName(QStringLiteral("scaleChoice"));
    m_scale->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    addRow(tr("Component"), m_component);
    addRow(tr("Scale"), m_scale);
    connect(m_scale, &QComboBox::activated, this,
            [this] { Q_EMIT scaleChosen({m_scale->currentData().toString().toStdString()}); });
    connect(m_name, &QLineEdit::textChanged, this, &MeasureField::look);
    connect(m_component, &QLineEdit::textEdited, this, [this](const QString& typed) {
        m_typedComponent = typed;
        look();
    });
}

void MeasureField::setSnapshot(std::shared_ptr<const session::Snapshot> snapshot) {
    m_snapshot = std::move(snapshot);
    complete(m_name, wordsOfAll(m_snapshot->reg, [](const record::Dimension&) { return true; }));
    QStringList components;
    for (const auto& component : session::componentsOf(m_snapshot->reg))
        components << QString::fromStdString(component);
    complete(m_component, components);
    look();
}

void MeasureField::setChoices(const std::vector<ScaleChoice>& choices,
                              const record::FrameId& used) {
    m_scale->clear();
    for (const ScaleChoice& choice : choices)
        m_scale->addItem(choice.words, QString::fromStdString(choice.frame.text));
    m_scale->setCurrentIndex(m_scale->findData(QString::fromStdString(used.text)));
    showRow(m_scale, choices.size() > 1);
}

void MeasureField::clear() {
    m_name->clear();
}

void MeasureField::enterInto(session::MeasureDraft& draft) const {
    const auto* dimension = meant();
    draft.dimension.reset();
    draft.name.clear();
    draft.component.reset();
    if (dimension != nullptr) {
        draft.dimension = dimension->id;
        draft.quantity = dimension->quantity;
        return;
    }
    draft.name = m_name->text().trimmed().toStdString();
    if (const QString component = m_typedComponent.trimmed(); !component.isEmpty())
        draft.component = component.toStdString();
}

const record::Dimension* MeasureField::meant() const {
    return m_snapshot ? dimensionMeant(m_snapshot->reg, m_name->text(), m_typedComponent) : nullptr;
}

QWidget* MeasureField::fieldAt(const std::string& place) const {
    if (place == "frame") return m_scale;
    return place.find("component") != std::string::npos ? m_component : m_name;
}

void MeasureField::look() {
    clearRefusal();
    const auto* dimension = meant();
    m_component->setEnabled(dimension == nullptr);
    m_component->setText(dimension != nullptr
                             ? QString::fromStdString(dimension->component.value_or(std::string()))
                             : m_typedComponent);
    setRemark(dimension != nullptr ? tr("One more reading of %1.").arg(wordsOf(*dimension))
                                   : QString());
}

}  // namespace app::desk::page
