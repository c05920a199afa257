#pragma once

#include <QtGlobal>

/// The room lies in a static library: the linker keeps its resources only where they are asked for.
/// Outside any namespace, as the macro demands; repeating it is harmless.
inline void openLookResources() {
    Q_INIT_RESOURCE(look);
}
