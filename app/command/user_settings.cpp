#include "app/command/user_settings.h"

#include <QSettings>
#include <QString>

namespace app::command {

std::optional<std::string> userSetting(std::string_view key) {
    const QSettings settings(QSettings::IniFormat, QSettings::UserScope, "lostlines", "settings");
    const QString value =
        settings
            .value(QStringLiteral("user/") + QString::fromUtf8(key.data(), qsizetype(key.size())))
            .toString();
    if (value.isEmpty()) return std::nullopt;
    return value.toStdString();
}

}  // namespace app::command
