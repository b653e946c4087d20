// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Where the window keeps what it remembers between runs: layout, theme, units, recent files.

#include <QSettings>

namespace ullage::ui {

/// A handle on the user's settings; cheap, all handles see the same values.
class WindowSettings : public QSettings {
public:
    WindowSettings() : QSettings(QStringLiteral("Ullage"), QStringLiteral("Ullage")) {}
};

inline WindowSettings windowSettings() { return {}; }

}  // namespace ullage::ui
