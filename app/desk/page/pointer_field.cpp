#include "app/desk/page/pointer_field.h"

#include "app/desk/look/look.h"

#include <QCompleter>
#include <QFormLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QMouseEvent>
#include <QPainter>
#include <QVBoxLayout>

#include <algorithm>

namespace app::desk::page {

namespace {

constexpr int kWidth = 352;

QLabel* sentence(QWidget* parent, const char* name, const char* pencil) {
    auto* label = new QLabel(parent);
    label->setObjectName(QString::fromLatin1(name));
    label->setProperty("pencil", QString::fromLatin1(pencil));
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->hide();
    return label;
}

void say(QLabel* label, const QString& words) {
    label->setText(words);
    label->setVisible(!words.isEmpty());
}

}  // namespace

PointerField::PointerField(QWidget* parent)
    : QFrame(parent),
      m_rows(new QFormLayout),
      m_figure(sentence(this, "figure", "blue")),
      m_remark(sentence(this, "remark", "graphite")),
      m_refusal(sentence(this, "refusal", "red")) {
    setCursor(Qt::ArrowCursor);
    setFixedWidth(kWidth);
    m_figure->setFont(look::figures(look::Size::Heading));

    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(12, 8, 12, 8);
    column->setSpacing(8);
    column->addWidget(m_figure);
    m_rows->setHorizontalSpacing(8);
    m_rows->setVerticalSpacing(4);
    m_rows->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    column->addLayout(m_rows);
    column->addWidget(m_refusal);
    column->addWidget(m_remark);
    auto* keys = sentence(this, "keys", "graphite");
    say(keys, tr("Enter keeps it, Esc drops it."));
    column->addWidget(keys);
    hide();
}

void PointerField::setFigure(const QString& words) {
    say(m_figure, words);
    settle();
}

void PointerField::setRemark(const QString& words) {
    say(m_remark, words);
    settle();
}

void PointerField::clearRefusal() {
    say(m_refusal, {});
    settle();
}

void PointerField::refuse(const QString& words, QWidget* field) {
    say(m_refusal, words);
    settle();
    if (field != nullptr) field->setFocus();
    if (auto* line = qobject_cast<QLineEdit*>(field)) line->selectAll();
}

void PointerField::openAt(const QPointF& at) {
    m_at = at;
    settle();
    show();
    raise();
    if (auto* first = m_rows->itemAt(0, QFormLayout::FieldRole)->widget()) first->setFocus();
}

void PointerField::addRow(const QString& label, QWidget* field) {
    m_rows->addRow(label, field);
}

void PointerField::showRow(QWidget* field, bool shown) {
    m_rows->setRowVisible(field, shown);
    settle();
}

void PointerField::complete(QLineEdit* field, const QStringList& words) {
    auto* completer = new QCompleter(words, field);
    completer->setCaseSensitivity(Qt::CaseInsensitive);
    completer->setFilterMode(Qt::MatchContains);
    field->setCompleter(completer);
}

void PointerField::settle() {
    constexpr double kApart = 16;
    constexpr double kMargin = 4;
    const int height = layout()->hasHeightForWidth() ? layout()->heightForWidth(kWidth)
                                                     : layout()->sizeHint().height();
    resize(kWidth, height);
    // Right of the pointer and below it, else on the other side.
    const QSizeF room = parentWidget()->size();
    QPointF corner = m_at + QPointF(kApart, kApart);
    if (corner.x() + kWidth + kMargin > room.width()) corner.rx() = m_at.x() - kApart - kWidth;
    if (corner.y() + height + kMargin > room.height()) corner.ry() = m_at.y() - kApart - height;
    move(static_cast<int>(std::max(kMargin, corner.x())),
         static_cast<int>(std::max(kMargin, corner.y())));
}

bool PointerField::event(QEvent* event) {
    // A letter typed here, as in a list of sources, is no tool's key.
    if (event->type() == QEvent::ShortcutOverride) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (!(key->modifiers() & (Qt::ControlModifier | Qt::AltModifier))) event->accept();
    }
    return QFrame::event(event);
}

void PointerField::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
        case Qt::Key_Return:
        case Qt::Key_Enter:
            return Q_EMIT keepWanted();
        case Qt::Key_Escape:
            return Q_EMIT dropWanted();
        default:
            event->accept();  // what is typed here is nobody else's
    }
}

void PointerField::mousePressEvent(QMouseEvent* event) {
    event->accept();
}

void PointerField::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setPen(look::colours().hairline);
    painter.setBrush(look::colours().paper);
    painter.drawRect(rect().adjusted(0, 0, -1, -1));
}

}  // namespace app::desk::page
