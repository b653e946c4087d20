// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A program without a display whose settings and put-aside work are its own, and gone at its end. To be made before
/// the QApplication.

#include <QSettings>
#include <QTemporaryDir>

namespace ullage::ui {

class SettingsApart {
public:
    SettingsApart() {
        qputenv("QT_QPA_PLATFORM", "offscreen");
        qputenv("XDG_DATA_HOME", folder_.path().toUtf8());
        QSettings::setPath(QSettings::NativeFormat, QSettings::UserScope, folder_.path());
    }

private:
    QTemporaryDir folder_;
};

}  // namespace ullage::ui
