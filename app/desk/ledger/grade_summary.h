#pragma once

#include "evidence-core/record/value.h"

#include <QWidget>

#include <array>
#include <optional>

namespace app::desk::ledger {

struct LedgerNode;

/// Dimensions by grade, in the order of the grades; those set aside do not count.
using GradeCounts = std::array<int, 7>;
[[nodiscard]] GradeCounts countGrades(const LedgerNode& root);
/// "161 dimensions: 12 H · 40 F …"
[[nodiscard]] QString gradeCountWords(const GradeCounts& counts);

/// How the dimensions are held up, as one bar with each grade's colour and hatching. A click on a
/// grade asks the ledger for it.
class GradeSummary : public QWidget {
    Q_OBJECT

  public:
    explicit GradeSummary(QWidget* parent = nullptr);

    void show(const GradeCounts& counts);
    [[nodiscard]] std::optional<evidence::record::Grade> gradeAt(const QPoint& point) const;
    [[nodiscard]] QSize sizeHint() const override;

  Q_SIGNALS:
    void gradePicked(evidence::record::Grade grade);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    bool event(QEvent* event) override;

  private:
    /// Left and right edge of a grade's part of the bar.
    [[nodiscard]] std::pair<double, double> partOf(std::size_t grade) const;

    GradeCounts m_counts{};
};

}  // namespace app::desk::ledger
