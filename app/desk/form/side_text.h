#pragma once

#include "app/session/known_confines.h"
#include "evidence-core/record/value.h"

#include <QString>

#include <string>
#include <vector>

namespace app::desk::form {

/// The left half of a form as rich text: headings in graphite, lines in ink. All words are escaped;
/// those of the register show their control characters by name.
class SideText {
  public:
    void heading(const QString& words);
    void line(const QString& words);
    /// A line of the register's own words with a fainter one under it.
    void line(const std::string& words, const QString& faint = {});
    void faint(const QString& words);
    void red(const QString& words);
    /// Value and grade sign, large.
    void size(const std::string& size, evidence::record::Grade grade);
    /// One row for each: name, size, grade sign.
    void sizes(const std::vector<session::KnownSize>& sizes);

    [[nodiscard]] QString html() const { return m_html; }

  private:
    QString m_html;
};

}  // namespace app::desk::form
