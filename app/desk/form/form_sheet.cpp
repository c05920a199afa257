#include "app/desk/form/form_sheet.h"

#include "app/desk/form/refusal_sentence.h"
#include "app/desk/look/look.h"

#include <QCheckBox>
#include <QComboBox>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QShortcut>
#include <QTextBrowser>

#include <algorithm>

namespace app::desk::form {

namespace {

constexpr int kGrid = look::kGrid;
constexpr int kKnownWidth = 360;
constexpr int kFieldsWidth = 440;
constexpr int kHeightWithKnown = 560;
constexpr int kTextLines = 3;
constexpr int kShortLine = 120;

QLabel* written(const QString& words, const char* pencil) {
    auto* label = new QLabel(words);
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    if (pencil) label->setProperty("pencil", QString::fromLatin1(pencil));
    return label;
}

}  // namespace

FormSheet::FormSheet(OpenRegister& open, const QString& name, const QString& title, QWidget* parent)
    : QDialog(parent), m_open(open) {
    setObjectName(name);
    setAttribute(Qt::WA_DeleteOnClose);
    setModal(false);
    setWindowTitle(title);

    auto* heading = written(title, nullptr);
    heading->setFont(look::type(look::Size::Title));
    m_about = written({}, "graphite");
    m_about->setObjectName(QStringLiteral("about"));
    m_about->hide();
    m_refusal = written({}, "red");
    m_refusal->setObjectName(QStringLiteral("refusal"));
    m_refusal->hide();

    m_fields = new QGridLayout;
    m_fields->setHorizontalSpacing(3 * kGrid);
    m_fields->setVerticalSpacing(2 * kGrid);
    m_fields->setColumnStretch(1, 1);
    auto* fields = new QWidget;
    fields->setMinimumWidth(kFieldsWidth);
    m_upright = new QVBoxLayout(fields);
    m_upright->setContentsMargins(0, 0, 0, 0);
    m_upright->addLayout(m_fields);
    m_upright->addStretch();
    m_halves = new QHBoxLayout;
    m_halves->setSpacing(6 * kGrid);
    m_halves->addWidget(fields, 1);

    m_keep = new QPushButton(tr("Keep"));
    m_keep->setObjectName(QStringLiteral("keep"));
    m_keep->setDefault(true);
    m_keep->setToolTip(tr("Writes it into the register (Ctrl+Return)."));
    m_leave = new QPushButton(tr("Leave"));
    m_leave->setObjectName(QStringLiteral("leave"));
    m_leave->setAutoDefault(false);
    m_leave->setToolTip(tr("Closes the form; nothing is written (Escape)."));
    auto* buttons = new QHBoxLayout;
    buttons->addStretch();
    buttons->addWidget(m_leave);
    buttons->addWidget(m_keep);
    m_foot = new QVBoxLayout;

    auto* sheet = new QVBoxLayout(this);
    sheet->setContentsMargins(6 * kGrid, 5 * kGrid, 6 * kGrid, 5 * kGrid);
    sheet->setSpacing(2 * kGrid);
    sheet->addWidget(heading);
    sheet->addWidget(m_about);
    sheet->addSpacing(kGrid);
    sheet->addLayout(m_halves, 1);
    sheet->addLayout(m_foot);
    sheet->addLayout(buttons);

    connect(m_keep, &QPushButton::clicked, this, &FormSheet::keep);
    connect(m_leave, &QPushButton::clicked, this, &QDialog::reject);
    auto* shortcut = new QShortcut(QKeySequence(Qt::CTRL | Qt::Key_Return), this);
    connect(shortcut, &QShortcut::activated, this, &FormSheet::keep);
}

void FormSheet::setAbout(const QString& about) {
    m_about->setText(about);
    m_about->setVisible(!about.isEmpty());
}

QTextBrowser* FormSheet::known() {
    if (m_known) return m_known;
    m_known = new QTextBrowser;
    m_known->setObjectName(QStringLiteral("known"));
    m_known->setOpenLinks(false);
    m_known->setMinimumWidth(kKnownWidth);
    m_known->setFocusPolicy(Qt::ClickFocus);
    m_left = new QVBoxLayout;
    m_left->setSpacing(2 * kGrid);
    m_left->addWidget(m_known, 1);
    m_halves->insertLayout(0, m_left, 1);
    resize(sizeHint().expandedTo({kKnownWidth + kFieldsWidth, kHeightWithKnown}));
    return m_known;
}

void FormSheet::addUnderKnown(QWidget* picture) {
    Q_ASSERT(m_left);
    m_left->addWidget(picture);
}

QLineEdit* FormSheet::addLine(const QString& label, const QString& name, const QString& hint) {
    auto* line = new QLineEdit;
    line->setObjectName(name);
    line->setPlaceholderText(hint);
    addRow(label, line);
    return line;
}

FormSheet::Pair FormSheet::addPair(const QString& label, const QString& first, const QString& words,
                                   const QString& second) {
    auto* both = new QWidget;
    auto* row = new QHBoxLayout(both);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(2 * kGrid);
    const Pair pair{new QLineEdit, new QLineEdit};
    pair.first->setObjectName(first);
    pair.second->setObjectName(second);
    for (auto* line : {pair.first, pair.second}) line->setMinimumWidth(kShortLine);
    row->addWidget(pair.first, 1);
    row->addWidget(new QLabel(words));
    row->addWidget(pair.second, 1);
    both->setFocusProxy(pair.first);
    addRow(label, both);
    m_places[first.toStdString()] = pair.first;
    m_places[second.toStdString()] = pair.second;
    return pair;
}

QPlainTextEdit* FormSheet::addText(const QString& label, const QString& name, const QString& hint) {
    auto* text = new QPlainTextEdit;
    text->setObjectName(name);
    text->setPlaceholderText(hint);
    text->setTabChangesFocus(true);
    text->setMinimumHeight(kTextLines * text->fontMetrics().lineSpacing() + 5 * kGrid);
    addRow(label, text);
    // Where there is room to spare, words get it; the widget's own wish is far too tall.
    text->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Ignored);
    m_fields->setRowStretch(m_fields->rowCount() - 1, 1);
    m_upright->setStretchFactor(m_fields, 1);
    return text;
}

QComboBox* FormSheet::addChoice(const QString& label, const QString& name) {
    auto* choice = new QComboBox;
    choice->setObjectName(name);
    // Long titles must not widen the sheet; the list itself shows them whole.
    choice->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    choice->setMinimumContentsLength(20);
    addRow(label, choice);
    return choice;
}

QCheckBox* FormSheet::addCheck(const QString& words, const QString& name) {
    auto* check = new QCheckBox(words);
    check->setObjectName(name);
    addRow({}, check);
    return check;
}

void FormSheet::addField(const QString& label, QWidget* field) {
    addRow(label, field);
}

QLabel* FormSheet::addNote(const QString& name) {
    auto* note = written({}, "graphite");
    note->setObjectName(name);
    addRow({}, note);
    return note;
}

void FormSheet::alsoAt(const std::string& place, QWidget* field) {
    m_places[place] = field;
}

void FormSheet::setFieldVisible(QWidget* field, bool visible) {
    const auto* row = rowOf(field);
    Q_ASSERT(row);
    row->field->setVisible(visible);
    row->label->setVisible(visible);
    if (isVisible()) grow();
}

void FormSheet::addRow(const QString& label, QWidget* field) {
    Row row;
    row.label = written(label, "graphite");
    row.label->setAlignment(Qt::AlignRight | Qt::AlignTop);
    row.label->setContentsMargins(0, kGrid, 0, 0);
    row.label->setWordWrap(false);
    row.label->setBuddy(field);
    row.field = field;
    row.cell = new QVBoxLayout;
    row.cell->setSpacing(kGrid);
    row.cell->addWidget(field, 1);
    const int at = m_fields->rowCount();
    m_fields->addWidget(row.label, at, 0);
    m_fields->addLayout(row.cell, at, 1);
    m_rows.push_back(row);
    if (!focusWidget()) field->setFocus();
    if (!field->objectName().isEmpty()) m_places[field->objectName().toStdString()] = field;
}

void FormSheet::keep() {
    Q_ASSERT(m_plan);
    m_refusal->hide();
    const auto kept = m_open.perform(m_plan);
    if (kept)
        accept();
    else
        showRefusal(kept.error());
}

void FormSheet::showRefusal(const evidence::Refusal& refusal) {
    m_refusal->setText(refusalSentence(refusal));
    auto* field = fieldAt(refusal.place);
    const auto* row = field ? rowOf(field) : nullptr;
    (row ? row->cell : m_foot)->addWidget(m_refusal);
    m_refusal->show();
    grow();
    if (field) field->setFocus(Qt::OtherFocusReason);
}

/// The field registered for the place itself, else for the nearest place above it: a refusal at
/// "alternatives/0/value" may stand under the whole list.
QWidget* FormSheet::fieldAt(const std::string& place) const {
    for (auto rest = place; !rest.empty();) {
        if (const auto found = m_places.find(rest); found != m_places.end() &&
                                                    rowOf(found->second) &&
                                                    !rowOf(found->second)->field->isHidden())
            return found->second;
        const auto stroke = rest.rfind('/');
        rest = stroke == std::string::npos ? std::string() : rest.substr(0, stroke);
    }
    return nullptr;
}

const FormSheet::Row* FormSheet::rowOf(const QWidget* field) const {
    const auto row = std::ranges::find_if(m_rows, [&](const Row& one) {
        return one.field == field || one.field->isAncestorOf(field);
    });
    return row == m_rows.end() ? nullptr : &*row;
}

void FormSheet::grow() {
    m_halves->activate();
    layout()->activate();
    const int wanted = layout()->hasHeightForWidth() ? layout()->totalHeightForWidth(width())
                                                     : layout()->totalSizeHint().height();
    if (wanted > height()) resize(width(), wanted);
}

void FormSheet::showEvent(QShowEvent* event) {
    // The buttons were made first and would be reached first.
    QWidget* last = m_rows.empty() ? m_keep : m_rows.back().field;
    for (auto* child : m_fields->parentWidget()->findChildren<QWidget*>())
        if (child->focusPolicy() & Qt::TabFocus) last = child;
    setTabOrder(last, m_leave);
    setTabOrder(m_leave, m_keep);
    grow();
    QDialog::showEvent(event);
}

}  // namespace app::desk::form
