#pragma once

#include "app/desk/page/known_thing.h"
#include "app/desk/page/page_scales.h"
#include "app/desk/page/pointer_field.h"
#include "app/session/archive.h"
#include "evidence-core/trade/trade.h"

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
    /// The source that the page belongs to: things of its time are offered first.
    void setPageOf(const std::optional<evidence::record::SourceId>& source);
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
    /// Asks which row is meant, where the words leave that open.
    void askMeaning();
    /// The row of the tables that is meant as things stand; null: none, or not said yet.
    [[nodiscard]] const evidence::trade::Row* rowMeant() const;
    [[nodiscard]] QString remarkOf(const evidence::trade::Row& row) const;

    QLineEdit* m_length;
    QComboBox* m_meaning;
    QLineEdit* m_plusMinus;
    QComboBox* m_source;
    QComboBox* m_joins;
    std::shared_ptr<const session::Snapshot> m_snapshot;
    std::optional<evidence::trade::Tables> m_tables;
    std::optional<evidence::record::SourceId> m_pageOf;
    QString m_question;
};

}  // namespace app::desk::page
