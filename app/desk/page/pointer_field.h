#pragma once

#include <QFrame>
#include <QPointF>
#include <QString>

class QCompleter;
class QFormLayout;
class QLabel;
class QLineEdit;

namespace app::desk::page {

/// A small sheet of paper at the pointer that asks what was just marked. Enter keeps, Escape drops;
/// a refusal stands in red pencil under the rows. Never modal.
class PointerField : public QFrame {
    Q_OBJECT

  public:
    explicit PointerField(QWidget* parent);

    /// The figure that the mark shows, in blue pencil; empty: none.
    void setFigure(const QString& words);
    /// Why it was not kept; the field that has to change gets the cursor.
    void refuse(const QString& sentence, QWidget* field);
    /// Shows the sheet beside `at` (parent's coordinates), the cursor in its first field.
    void openAt(const QPointF& at);

  Q_SIGNALS:
    void keepWanted();
    void dropWanted();

  protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

    void addRow(const QString& label, QWidget* field);
    void showRow(QWidget* field, bool shown);
    /// A remark in graphite under the rows; empty: none.
    void setRemark(const QString& sentence);
    void clearRefusal();
    /// Lists what a field may mean, by any part of it.
    static void complete(QLineEdit* field, const QStringList& words);

  private:
    void settle();

    QFormLayout* m_rows;
    QLabel* m_figure;
    QLabel* m_remark;
    QLabel* m_refusal;
    QPointF m_at;
};

}  // namespace app::desk::page
