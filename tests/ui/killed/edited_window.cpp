// SPDX-License-Identifier: GPL-3.0-or-later
/// A window to be killed: edited_window SITE opens the site, edits it, and goes on editing. Prints "copied" when
/// its work has been put aside once. Ends by itself after a minute.
#include "ui/document/site_document.h"
#include "ui/window/main_window.h"

#include <QApplication>
#include <QDirIterator>
#include <QStandardPaths>
#include <QTimer>

#include <cstdio>

using namespace ullage;

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication application(argc, argv);
    Settings settings;
    settings.paths = 20;
    ui::MainWindow window(settings);
    window.show();
    window.openFile(QString::fromLocal8Bit(argv[1]));
    if (!window.document().isOpen()) return 1;
    window.document().editSite(QStringLiteral("first"), [](Site& site) { site.name = "Edited and not saved"; });

    // The copy is made once the work has been left alone for a moment.
    QTimer look;
    bool copied = false;
    QObject::connect(&look, &QTimer::timeout, [&] {
        if (copied) {
            window.document().editSite(QStringLiteral("more"), [](Site& site) { site.prepared_by += "."; });
            return;
        }
        const QString root = QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation);
        QDirIterator files(root, {QStringLiteral("copy.site.json")}, QDir::Files, QDirIterator::Subdirectories);
        if (!files.hasNext()) return;
        copied = true;
        std::puts("copied");
        std::fflush(stdout);
    });
    look.start(20);
    QTimer::singleShot(60000, &application, &QApplication::quit);
    return QApplication::exec();
}
