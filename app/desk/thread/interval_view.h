#pragma once

#include "app/report/figure/interval_figure.h"

#include <QWidget>

namespace app::desk::thread {

/// The readings of the chosen dimension over each other, on one scale.
class IntervalView : public QWidget {
    Q_OBJECT

  public:
    explicit IntervalView(QWidget* parent = nullptr);

    void show(report::figure::IntervalPlot plot);
    [[nodiscard]] const report::figure::IntervalPlot& plot() const { return m_plot; }
    [[nodiscard]] QSize minimumSizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    report::figure::IntervalPlot m_plot;
};

}  // namespace app::desk::thread
