#pragma once

namespace app::desk::page {

/// What a drag on the page does.
enum class Tool {
    Look,     ///< moves the picture; a click chooses a mark
    Scale,    ///< drag along a thing of known length
    Measure,  ///< drag along the wanted thing
    Circle,   ///< three clicks on a rim
};

}  // namespace app::desk::page
