#include "app/desk/page/scale_field.h"

#include "app/desk/page/dimension_words.h"
#include "app/session/table_offer.h"
#include "evidence-core/record/measure.h"

#include <QComboBox>
#include <QCompleter>
#include <QLineEdit>

#include <algorithm>

namespace app::desk::page {

namespace record = evidence::record;
namespace trade = evidence::trade;

namespace {

bool givesScale(const record::Dimension& dimension) {
    return record::measureOf(dimension.quantity) == evidence::quantity::Measure::Length;
}

/// The beginning of a thing's name; a length begins with a figure.
bool namesAThing(const QString& text) {
    constexpr qsizetype kTelling = 3;  // fewer letters would list nearly everything
    const QString words = text.trimmed();
    return words.size() >= kTelling && words.front().isLetter();
}

/// Lists what a name may mean, by any part of it, and nothing for a figure: Enter keeps a length as
/// it was typed.
class ThingCompleter : public QCompleter {
  public:
    ThingCompleter(const QStringList& things, QLineEdit* field) : QCompleter(things, field) {
        setCaseSensitivity(Qt::CaseInsensitive);
        setFilterMode(Qt::MatchContains);
    }
    [[nodiscard]] QStringList splitPath(const QString& typed) const override {
        return {namesAThing(typed) ? typed : QString(QChar(QChar::ReplacementCharacter))};
    }
};

}  // namespace

ScaleField::ScaleField(QWidget* parent)
    : PointerField(parent),
      m_length(new QLineEdit(this)),
      m_meaning(new QComboBox(this)),
      m_plusMinus(new QLineEdit(this)),
      m_source(new QComboBox(this)),
      m_joins(new QComboBox(this)) {
    setObjectName(QStringLiteral("scaleField"));
    m_length->setObjectName(QStringLiteral("lengthField"));
    m_length->setPlaceholderText(tr("5 ft 3 1/2 in, 1605 mm, a dimension, a known thing"));
    m_plusMinus->setObjectName(QStringLiteral("plusMinusField"));
    m_plusMinus->setPlaceholderText(tr("as its source is by default"));
    m_plusMinus->setToolTip(tr("Half of the interval that holds it 95 times in 100."));
    m_source->setObjectName(QStringLiteral("sourceField"));
    m_source->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_meaning->setObjectName(QStringLiteral("meaningField"));
    m_meaning->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    addRow(tr("This is"), m_length);
    addRow(tr("Which"), m_meaning);
    showRow(m_meaning, false);
    addRow(tr("±"), m_plusMinus);
    m_joins->setObjectName(QStringLiteral("joinsField"));
    m_joins->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    addRow(tr("Source"), m_source);
    addRow(tr("Scale"), m_joins);
    connect(m_length, &QLineEdit::textChanged, this, [this] {
        askMeaning();
        look();
    });
    connect(m_meaning, &QComboBox::activated, this, &ScaleField::look);
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
    m_tables.emplace(m_snapshot->reg);
    QStringList things = wordsOfAll(m_snapshot->reg, givesScale);
    for (const auto& offer :
         session::offers(*m_tables, m_snapshot->reg, {}, {record::TableRowKind::Length}, m_pageOf))
        things << QString::fromStdString(session::pickedWords(*m_tables->find(offer.row)));
    m_length->setCompleter(new ThingCompleter(things, m_length));
    look();
}

void ScaleField::setPageOf(const std::optional<record::SourceId>& source) {
    m_pageOf = source;
}

void ScaleField::askMeaning() {
    m_meaning->clear();
    m_question.clear();
    const std::string typed = m_length->text().trimmed().toStdString();
    const bool known = !m_tables || dimensionMeant(m_snapshot->reg, m_length->text()) != nullptr ||
                       session::rowPicked(*m_tables, typed) != nullptr;
    const auto asked = known ? session::SizeAsked{}
                             : session::sizeAsked(*m_tables, m_snapshot->reg, typed, m_pageOf);
    if (!asked.offers.empty() && !asked.row) {
        m_question = QString::fromStdString(asked.question);
        m_meaning->addItem(tr("choose which was meant"), QString());
        for (const auto& offer : asked.offers)
            m_meaning->addItem(QString::fromStdString(session::candidateWords(offer)),
                               QString::fromStdString(offer.row));
    }
    showRow(m_meaning, m_meaning->count() > 0);
}

const trade::Row* ScaleField::rowMeant() const {
    if (!m_tables) return nullptr;
    const std::string chosen = m_meaning->currentData().toString().toStdString();
    if (!chosen.empty()) return m_tables->find(chosen);
    const std::string typed = m_length->text().trimmed().toStdString();
    if (const auto* row = session::rowPicked(*m_tables, typed)) return row;
    const auto asked = session::sizeAsked(*m_tables, m_snapshot->reg, typed, m_pageOf);
    return asked.row ? m_tables->find(*asked.row) : nullptr;
}

QString ScaleField::remarkOf(const trade::Row& row) const {
    const auto offer = session::offerOf({&row, true, true});
    return tr("%1: %2. %3.")
        .arg(QString::fromStdString(offer.value), QString::fromStdString(offer.words),
             QString::fromStdString(offer.source));
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
            record::SourceId{m_source->currentData().toString().toStdString()},
            m_meaning->currentData().toString().toStdString()};
}

QWidget* ScaleField::fieldAt(const std::string& place) const {
    if (place.find("half_width") != std::string::npos || place.ends_with("/u")) return m_plusMinus;
    if (place.find("source") != std::string::npos) return m_source;
    if (place.ends_with("table_row")) return m_meaning;
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
    else if (const auto* row = rowMeant())
        setRemark(remarkOf(*row));
    else if (!m_question.isEmpty())
        setRemark(m_question);
    else if (m_source->currentData().toString().isEmpty())
        setRemark(
            tr("Without a source this length is a guess, and what hangs on it rests on a "
               "guess."));
    else
        setRemark({});
}

}  // namespace app::desk::page
