#pragma once

#include "app/desk/page/page_scales.h"
#include "app/desk/page/pointer_field.h"
#include "app/session/actions.h"
#include "app/session/archive.h"

#include <memory>
#include <string>
#include <vector>

class QComboBox;
class QLineEdit;

namespace app::desk::page {

/// Asks what was measured: a dimension of the register, or the name of a new one.
class MeasureField : public PointerField {
    Q_OBJECT

  public:
    explicit MeasureField(QWidget* parent);

    void setSnapshot(std::shared_ptr<const session::Snapshot> snapshot);
    /// The scales of the page, and the one it is measured with.
    void setChoices(const std::vector<ScaleChoice>& choices, const evidence::record::FrameId& used);
    /// The component stays: neighbours are measured one after the other.
    void clear();

    /// Fills in which dimension the draft measures.
    void enterInto(session::MeasureDraft& draft) const;
    [[nodiscard]] QWidget* fieldAt(const std::string& place) const;

  Q_SIGNALS:
    void scaleChosen(const evidence::record::FrameId& frame);

  private:
    void look();
    [[nodiscard]] const evidence::record::Dimension* meant() const;

    QLineEdit* m_name;
    QLineEdit* m_component;
    QComboBox* m_scale;
    QString m_typedComponent;
    std::shared_ptr<const session::Snapshot> m_snapshot;
};

}  // namespace app::desk::page
