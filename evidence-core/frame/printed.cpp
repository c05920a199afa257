#include "evidence-core/frame/printed.h"

namespace evidence::frame {

PrintedScale printedScale(double dpi, double drawnScale, double uRelative) {
    const double scale = drawnScale / dpi;
    return {scale, scale * uRelative};
}

}  // namespace evidence::frame
