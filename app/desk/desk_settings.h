#pragma once

#include "app/desk/look/look.h"

#include <QByteArray>
#include <QStringList>

/// What the desk remembers of its user: `lostlines/settings.ini` in the XDG config folder, section
/// [desk]. Holds no evidence.
namespace app::desk::desk_settings {

[[nodiscard]] look::Theme theme();
void keepTheme(look::Theme theme);

[[nodiscard]] QByteArray geometry();
void keepGeometry(const QByteArray& geometry);

/// Folders of registers opened before, the last one first; those that are gone are left out.
[[nodiscard]] QStringList openedBefore();
void keepOpened(const QString& folder);

}  // namespace app::desk::desk_settings
