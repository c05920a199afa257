#pragma once

#include "evidence-core/record/decision.h"

#include <QWidget>

#include <vector>

class QLineEdit;
class QVBoxLayout;

namespace app::desk::form {

/// The alternatives that were weighed: a value and why not, row by row, with a button for another.
class AlternativeRows : public QWidget {
    Q_OBJECT

  public:
    explicit AlternativeRows(QWidget* parent = nullptr);

    /// Rows in which anything was written.
    [[nodiscard]] std::vector<evidence::record::Alternative> written() const;

  private:
    struct Row {
        QLineEdit* value = nullptr;
        QLineEdit* reason = nullptr;
    };
    void addRow();

    QVBoxLayout* m_layout = nullptr;
    std::vector<Row> m_rows;
};

}  // namespace app::desk::form
