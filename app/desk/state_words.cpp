#include "app/desk/state_words.h"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>

namespace app::desk {

namespace {

using evidence::judgement::DimensionResult;
using evidence::judgement::Finding;
using evidence::judgement::Severity;

QString counted(const char* one, const char* many, std::ptrdiff_t count) {
    return count == 1 ? QCoreApplication::translate("StateWords", one)
                      : QCoreApplication::translate("StateWords", many).arg(count);
}

}  // namespace

QString stateInWords(const evidence::judgement::Analysis& analysis) {
    const auto guesses =
        std::ranges::count(analysis.dimensions, true, &DimensionResult::restsOnGuess);
    const auto first = std::ranges::count_if(analysis.findings, [](const Finding& finding) {
        return finding.severity == Severity::High && !finding.acknowledged;
    });
    QStringList words{counted(QT_TRANSLATE_NOOP("StateWords", "1 dimension"),
                              QT_TRANSLATE_NOOP("StateWords", "%1 dimensions"),
                              std::ptrdiff_t(analysis.dimensions.size()))};
    if (guesses > 0)
        words << counted(QT_TRANSLATE_NOOP("StateWords", "1 rests on a guess"),
                         QT_TRANSLATE_NOOP("StateWords", "%1 rest on a guess"), guesses);
    words << (first == 0
                  ? QCoreApplication::translate("StateWords", "nothing to settle first")
                  : counted(QT_TRANSLATE_NOOP("StateWords", "1 note to settle first"),
                            QT_TRANSLATE_NOOP("StateWords", "%1 notes to settle first"), first));
    return words.join(QStringLiteral("  ·  "));
}

}  // namespace app::desk
