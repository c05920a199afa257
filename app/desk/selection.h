#pragma once

#include "app/session/chosen.h"

#include <QObject>

namespace app::desk {

class OpenRegister;

/// What the user has chosen. Every part of the desk follows it, so that choosing anything anywhere
/// shows all about it: a size brings its mark, page and source; a mark brings its size.
class Selection : public QObject {
    Q_OBJECT

  public:
    explicit Selection(OpenRegister& open, QObject* parent = nullptr);

    [[nodiscard]] const session::Chosen& now() const { return m_now; }

    /// Chooses any record: dimension, particular, mark, scale, reading, source, file …
    void choose(const evidence::record::AnyId& record);
    void choosePage(const session::PageOfFile& page);

  Q_SIGNALS:
    void changed();

  private:
    OpenRegister& m_open;
    session::Chosen m_now;
};

}  // namespace app::desk
