#include "app/desk/page/page_header.h"

#include "app/desk/look/elided_label.h"
#include "app/desk/look/look.h"
#include "app/desk/page/source_pages.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QToolButton>

namespace app::desk::page {

namespace {

QToolButton* turningButton(QWidget* parent, Qt::ArrowType arrow, const QString& words) {
    auto* button = new QToolButton(parent);
    button->setArrowType(arrow);
    button->setAutoRaise(true);
    button->setToolTip(words);
    button->setAccessibleName(words);
    return button;
}

}  // namespace

PageHeader::PageHeader(QWidget* parent)
    : QWidget(parent),
      m_title(new look::ElidedLabel(this)),
      m_damage(new QLabel(tr("parts of this page cannot be read"), this)),
      m_scale(new QLabel(this)),
      m_turning(new QWidget(this)),
      m_previous(turningButton(m_turning, Qt::LeftArrow, tr("Previous page"))),
      m_count(new QLabel(m_turning)),
      m_next(turningButton(m_turning, Qt::RightArrow, tr("Next page"))) {
    m_title->setObjectName(QStringLiteral("pageTitle"));
    m_title->setTextFormat(Qt::PlainText);
    m_title->setMinimumWidth(60);
    m_damage->setObjectName(QStringLiteral("pageDamage"));
    m_damage->setProperty("pencil", QStringLiteral("red"));
    m_damage->setToolTip(tr("They are shown grey, and nothing is measured in them."));
    m_damage->hide();
    m_scale->setObjectName(QStringLiteral("pageScale"));
    m_scale->setProperty("pencil", QStringLiteral("graphite"));
    m_scale->setFont(look::figures(look::Size::Text));
    m_count->setObjectName(QStringLiteral("pageCount"));
    m_previous->setObjectName(QStringLiteral("previousPage"));
    m_next->setObjectName(QStringLiteral("nextPage"));

    auto* turning = new QHBoxLayout(m_turning);
    turning->setContentsMargins(0, 0, 0, 0);
    turning->setSpacing(4);
    turning->addWidget(m_previous);
    turning->addWidget(m_count);
    turning->addWidget(m_next);

    auto* line = new QHBoxLayout(this);
    line->setContentsMargins(12, 4, 12, 4);
    line->setSpacing(16);
    line->addWidget(m_title, 1);
    line->addWidget(m_damage);
    line->addWidget(m_turning);
    line->addWidget(m_scale);

    connect(m_previous, &QToolButton::clicked, this, [this] { turn(-1); });
    connect(m_next, &QToolButton::clicked, this, [this] { turn(1); });
    show(nullptr, {});
}

void PageHeader::show(const evidence::record::Source* source, const session::PageOfFile& page) {
    m_pages = source ? pagesOf(*source) : std::vector<session::PageOfFile>{};
    m_place = placeOf(page, m_pages);
    const auto count = static_cast<int>(m_pages.size());
    const QString title = source ? QString::fromStdString(source->title) : tr("No page lies open");
    const QString code = source && source->code
                             ? QString::fromStdString(*source->code) + QLatin1Char(' ')
                             : QString();
    m_title->setText(code + title);
    m_title->setToolTip(code + title);
    m_count->setText(tr("page %1 of %2").arg(m_place + 1).arg(count));
    m_turning->setVisible(m_place >= 0 && count > 1);
    m_previous->setEnabled(m_place > 0);
    m_next->setEnabled(m_place >= 0 && m_place + 1 < count);
}

void PageHeader::setScale(const QString& words) {
    m_scale->setText(words);
}

void PageHeader::setDamaged(bool damaged) {
    m_damage->setVisible(damaged);
}

void PageHeader::turn(int by) {
    const int place = m_place + by;
    if (place >= 0 && place < static_cast<int>(m_pages.size()))
        Q_EMIT pageWanted(m_pages[static_cast<std::size_t>(place)]);
}

}  // namespace app::desk::page
