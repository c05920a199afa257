#include "app/desk/desk_settings.h"

#include <QFileInfo>
#include <QSettings>

namespace app::desk::desk_settings {

namespace {

constexpr int kRemembered = 8;

/// Opened anew for each use: the environment says where, and tests have their own.
struct Settings {
    QSettings file{QSettings::IniFormat, QSettings::UserScope, QStringLiteral("lostlines"),
                   QStringLiteral("settings")};
    Settings() { file.beginGroup(QStringLiteral("desk")); }
};

}  // namespace

look::Theme theme() {
    return Settings().file.value(QStringLiteral("lamp"), false).toBool() ? look::Theme::Lamp
                                                                         : look::Theme::Paper;
}

void keepTheme(look::Theme theme) {
    Settings().file.setValue(QStringLiteral("lamp"), theme == look::Theme::Lamp);
}

QByteArray geometry() {
    return Settings().file.value(QStringLiteral("geometry")).toByteArray();
}

void keepGeometry(const QByteArray& geometry) {
    Settings().file.setValue(QStringLiteral("geometry"), geometry);
}

QStringList openedBefore() {
    QStringList folders = Settings().file.value(QStringLiteral("opened")).toStringList();
    folders.removeIf([](const QString& folder) { return !QFileInfo::exists(folder); });
    return folders;
}

void keepOpened(const QString& folder) {
    QStringList folders = openedBefore();
    folders.removeAll(folder);
    folders.prepend(folder);
    Settings().file.setValue(QStringLiteral("opened"), folders.mid(0, kRemembered));
}

}  // namespace app::desk::desk_settings
