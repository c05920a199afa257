#include "app/desk/form/refusal_sentence.h"

#include "app/report/document.h"

namespace app::desk::form {

QString refusalSentence(const evidence::Refusal& refusal) {
    QString words = report::shown(refusal.help).trimmed();
    if (words.isEmpty()) return words;
    words[0] = words[0].toUpper();
    static const QString kEnds = QStringLiteral(".?:)”\"");
    if (!kEnds.contains(words.back())) words += u'.';
    return words;
}

}  // namespace app::desk::form
