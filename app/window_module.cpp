// SPDX-License-Identifier: GPL-3.0-or-later
/// The module that drawing.h loads: the window, with its libraries. What it needs of core/ is the program's own.
#include "app/drawing.h"
#include "ui/window/run_window.h"

extern "C" __attribute__((visibility("default"))) const ullage::Drawing ullage_drawing = {
    ULLAGE_VERSION, ullage::ui::runWindow, ullage::ui::writePictures, ullage::ui::layReport};
