#include "app/desk/page/dimension_words.h"

namespace app::desk::page {

namespace record = evidence::record;

namespace {

bool same(const QString& a, const QString& b) {
    return a.compare(b, Qt::CaseInsensitive) == 0;
}

}  // namespace

QString wordsOf(const record::Dimension& dimension) {
    const QString name = QString::fromStdString(dimension.name);
    return dimension.code ? QString::fromStdString(*dimension.code) + QLatin1Char(' ') + name
                          : name;
}

QString wordsOf(const record::Written& length, const std::optional<std::string>& unit) {
    if (const auto* written = std::get_if<std::string>(&length))
        return QString::fromStdString(*written);
    const auto& number = std::get<record::Number>(length);
    const QString figure = number.text.empty() ? QString::number(number.value, 'g', 12)
                                               : QString::fromStdString(number.text);
    return figure + QLatin1Char(' ') + QString::fromStdString(unit.value_or("in"));
}

QStringList wordsOfAll(const record::Register& reg,
                       const std::function<bool(const record::Dimension&)>& fits) {
    QStringList words;
    for (const auto& dimension : reg.dimensions)
        if (!dimension.setAside && fits(dimension)) words << wordsOf(dimension);
    return words;
}

const record::Dimension* dimensionMeant(const record::Register& reg, const QString& typed,
                                        const QString& component) {
    const QString part = component.simplified();
    const QString wanted = typed.simplified();
    if (wanted.isEmpty()) return nullptr;
    const record::Dimension* named = nullptr;
    int count = 0;
    for (const auto& dimension : reg.dimensions) {
        if (dimension.setAside) continue;
        if (dimension.code && same(QString::fromStdString(*dimension.code), wanted))
            return &dimension;
        if (same(wordsOf(dimension).simplified(), wanted)) return &dimension;
        if (!same(QString::fromStdString(dimension.name).simplified(), wanted)) continue;
        const QString its = QString::fromStdString(dimension.component.value_or(std::string()));
        if (!part.isEmpty() && !same(its.simplified(), part)) continue;
        named = &dimension;
        ++count;
    }
    return count == 1 ? named : nullptr;
}

}  // namespace app::desk::page
