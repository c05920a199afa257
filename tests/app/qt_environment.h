#pragma once

#include <QString>

/// For test programs that show widgets or draw text: add `qt_environment.cpp` to their sources. It
/// makes one QApplication (offscreen, own HOME and XDG folders, DejaVu Sans by name) and fails the
/// running test on any Qt warning that was not announced.
namespace tests::app {

/// The next Qt warning that contains `part` is expected.
void announceQtWarning(const QString& part);

}  // namespace tests::app
