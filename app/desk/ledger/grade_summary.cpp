#include "app/desk/ledger/grade_summary.h"

#include "app/desk/ledger/ledger_entry.h"
#include "app/desk/look/look.h"
#include "app/report/figure/grade_mark.h"

#include <QCoreApplication>
#include <QHelpEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QStringList>
#include <QToolTip>

#include <numeric>

namespace app::desk::ledger {

using evidence::record::Grade;

GradeCounts countGrades(const LedgerNode& root) {
    GradeCounts counts{};
    if (root.entry.kind == EntryKind::Dimension && !root.entry.setAside)
        ++counts[static_cast<std::size_t>(root.entry.grade)];
    for (const auto& child : root.children) {
        const GradeCounts below = countGrades(*child);
        for (std::size_t i = 0; i < counts.size(); ++i) counts[i] += below[i];
    }
    return counts;
}

QString gradeCountWords(const GradeCounts& counts) {
    QStringList parts;
    for (std::size_t i = 0; i < counts.size(); ++i)
        if (counts[i] > 0)
            parts << QStringLiteral("%1\u00A0%2")
                         .arg(QString::number(counts[i]), report::figure::gradeLetter(Grade(i)));
    const int all = std::accumulate(counts.begin(), counts.end(), 0);
    const QString many =
        all == 1 ? GradeSummary::tr("1 dimension") : GradeSummary::tr("%1 dimensions").arg(all);
    return parts.isEmpty() ? many
                           : QStringLiteral("%1: %2").arg(many, parts.join(QStringLiteral(" · ")));
}

GradeSummary::GradeSummary(QWidget* parent) : QWidget(parent) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setAccessibleName(tr("Dimensions by grade"));
}

void GradeSummary::show(const GradeCounts& counts) {
    m_counts = counts;
    setAccessibleDescription(gradeCountWords(counts));
    update();
}

QSize GradeSummary::sizeHint() const {
    return {60 * look::kGrid, 4 * look::kGrid};
}

std::pair<double, double> GradeSummary::partOf(std::size_t grade) const {
    const double all = std::accumulate(m_counts.begin(), m_counts.end(), 0);
    const auto upTo = [&](std::size_t end) {
        return std::accumulate(m_counts.begin(),
                               m_counts.begin() + static_cast<std::ptrdiff_t>(end), 0);
    };
    const double wide = width() - 1.0;
    return {0.5 + wide * upTo(grade) / all, 0.5 + wide * upTo(grade + 1) / all};
}

std::optional<Grade> GradeSummary::gradeAt(const QPoint& point) const {
    for (std::size_t i = 0; i < m_counts.size(); ++i) {
        if (m_counts[i] == 0) continue;
        const auto [left, right] = partOf(i);
        if (point.x() >= left && point.x() < right) return Grade(i);
    }
    return std::nullopt;
}

void GradeSummary::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const auto& colours = look::colours();
    for (std::size_t i = 0; i < m_counts.size(); ++i) {
        if (m_counts[i] == 0) continue;
        const auto [left, right] = partOf(i);
        report::figure::drawGradeFill(painter, QRectF(left, 0.5, right - left, height() - 1.0),
                                      Grade(i), colours.ink, colours.paper);
    }
}

void GradeSummary::mousePressEvent(QMouseEvent* event) {
    if (const auto grade = gradeAt(event->pos()); grade && event->button() == Qt::LeftButton)
        Q_EMIT gradePicked(*grade);
}

bool GradeSummary::event(QEvent* event) {
    if (event->type() != QEvent::ToolTip) return QWidget::event(event);
    const auto* help = static_cast<QHelpEvent*>(event);
    if (const auto grade = gradeAt(help->pos()))
        QToolTip::showText(
            help->globalPos(),
            tr("%1, %2: %3 of the dimensions. A click shows only these.")
                .arg(report::figure::gradeLetter(*grade), report::figure::gradeName(*grade),
                     QString::number(m_counts[static_cast<std::size_t>(*grade)])),
            this);
    else
        QToolTip::hideText();
    return true;
}

}  // namespace app::desk::ledger
