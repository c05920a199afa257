#include "app/desk/selection.h"

#include "app/desk/open_register.h"
#include "evidence-core/record/lookup.h"

namespace app::desk {

Selection::Selection(OpenRegister& open, QObject* parent) : QObject(parent), m_open(open) {}

void Selection::choose(const evidence::record::AnyId& record) {
    const auto chosen = session::allAbout(record, m_open.snapshot()->reg);
    if (chosen == m_now) return;
    const auto pageBefore = m_now.page;
    m_now = chosen;
    // A size without a picture leaves the page that lies open where it is.
    if (m_now.page.file.empty()) m_now.page = pageBefore;
    Q_EMIT changed();
}

void Selection::choosePage(const session::PageOfFile& page) {
    if (page == m_now.page) return;
    m_now = {};
    m_now.page = page;
    if (const auto* source = evidence::record::sourceOf(m_open.snapshot()->reg, page.file))
        m_now.source = source->id;
    Q_EMIT changed();
}

}  // namespace app::desk
