#pragma once

#include <QLabel>

namespace app::desk::look {

/// One line of plain words that gives way: what does not fit ends in "…". `text()` stays whole.
class ElidedLabel : public QLabel {
    Q_OBJECT

  public:
    explicit ElidedLabel(QWidget* parent = nullptr);

  protected:
    void paintEvent(QPaintEvent* event) override;
};

}  // namespace app::desk::look
