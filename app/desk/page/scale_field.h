#pragma once

#include "app/desk/page/known_thing.h"
#include "app/desk/page/page_scales.h"
#include "app/desk/page/pointer_field.h"
#include "app/session/archive.h"

#include <memory>
#include <optional>
#include <vector>

class QComboBox;
class QLineEdit;

namespace app::desk::page {

/// Asks what the thing is that was dragged along to set a scale.
class ScaleField : public PointerField {
    Q_OBJECT

  public:
    explicit ScaleField(QWidget* parent);

    void setSnapshot(std::shared_ptr<const session::Snapshot> snapshot);
    /// The scales of the page that another known length can join; `usual` stands first.
    void setChoices(const std::vector<ScaleChoice>& choices,
                    const std::optional<evidence::record::FrameId>& usual);
    void clear();

    [[nodiscard]] KnownThing entered() const;
    /// The scale it joins; nothing: a scale of its own.
    [[nodiscard]] std::optional<evidence::record::FrameId> joined() const;
    /// The field that a refusal's place means.
    [[nodiscard]] QWidget* fieldAt(const std::string& place) const;

  private:
    void look();

    QLineEdit* m_length;
    QLineEdit* m_plusMinus;
    QComboBox* m_source;
    QComboBox* m_joins;
    std::shared_ptr<const session::Snapshot> m_snapshot;
};

}  // namespace app::desk::page
