// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/recent_files.h"

#include "ui/window/window_settings.h"

#include <QFileInfo>

namespace ullage::ui {

namespace {
const QString key = QStringLiteral("files/recent");
}

QStringList RecentFiles::all() const { return windowSettings().value(key).toStringList(); }

void RecentFiles::add(const QString& path) {
    QStringList paths = all();
    const QString absolute = QFileInfo(path).absoluteFilePath();
    paths.removeAll(absolute);
    paths.prepend(absolute);
    while (paths.size() > most) paths.removeLast();
    windowSettings().setValue(key, paths);
}

void RecentFiles::clear() { windowSettings().remove(key); }

}  // namespace ullage::ui
