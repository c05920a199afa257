#pragma once

#include "app/report/report.h"
#include "evidence-core/record/register.h"

#include <QWidget>

class QComboBox;

namespace app::desk::preview {

/// Which report, and of what: kind, component, grade.
class FilterBar : public QWidget {
    Q_OBJECT

  public:
    explicit FilterBar(QWidget* parent = nullptr);

    /// Offers the components of the register; what is chosen stays while it is there.
    void offerComponents(const evidence::record::Register& reg);

    [[nodiscard]] report::Kind kind() const;
    [[nodiscard]] evidence::record::ReportFilter filter() const;

  Q_SIGNALS:
    void changed();

  private:
    QComboBox* addChoice(const QString& label, const QString& name);

    QComboBox* m_kind = nullptr;
    QComboBox* m_component = nullptr;
    QComboBox* m_grade = nullptr;
};

}  // namespace app::desk::preview
