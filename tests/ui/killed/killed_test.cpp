// SPDX-License-Identifier: GPL-3.0-or-later
// A window is killed with unsaved work; the next one offers it, and the file is as it was.
#include "core/site/site_json.h"
#include "tests/ui/window/small.h"
#include "ui/window/main_window.h"
#include "ui/window/message_bar.h"
#include "ui/window/window_settings.h"

#include <QFile>
#include <QProcess>
#include <QPushButton>
#include <QTemporaryDir>

#include <gtest/gtest.h>

namespace ullage::ui {
namespace {

QByteArray bytesOf(const QString& path) {
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

QPushButton* buttonOf(MessageBar& bar, const QString& text) {
    for (auto* button : bar.findChildren<QPushButton*>())
        if (button->text() == text) return button;
    return nullptr;
}

TEST(KilledWindow, ItsUnsavedWorkIsOfferedByTheNextOne) {
    windowSettings().clear();
    QTemporaryDir folder;
    const QString path = folder.filePath(QStringLiteral("small.site.json"));
    ASSERT_TRUE(write_site_file(path.toStdString(), smallSite()));
    const QByteArray before = bytesOf(path);

    QProcess other;  // with this program's XDG_DATA_HOME, where the work is put aside
    other.start(QStringLiteral(ULLAGE_EDITED_WINDOW), {path});
    ASSERT_TRUE(other.waitForStarted());
    ASSERT_TRUE(QTest::qWaitFor([&] { return other.readAllStandardOutput().contains("copied"); }, 50000));
    QTest::qWait(100);
    {
        MainWindow beside(Settings{});
        beside.offerLostWork();
        EXPECT_EQ(beside.messageBar().text(), QString()) << "the other window is still open";
    }
    other.kill();  // SIGKILL: nothing of it runs any more
    ASSERT_TRUE(other.waitForFinished());
    ASSERT_EQ(other.exitStatus(), QProcess::CrashExit);
    EXPECT_EQ(bytesOf(path), before);

    MainWindow window(Settings{});
    window.show();
    window.offerLostWork();
    ASSERT_TRUE(window.messageBar().text().contains(QStringLiteral("Edited and not saved")))
        << window.messageBar().text().toStdString();
    auto* const recover = buttonOf(window.messageBar(), QStringLiteral("&Recover it"));
    ASSERT_TRUE(recover);
    recover->click();
    ASSERT_TRUE(window.document().isOpen());
    EXPECT_EQ(window.document().site().name, "Edited and not saved");
    EXPECT_EQ(window.document().path(), path);
    EXPECT_TRUE(window.document().isModified());
    EXPECT_EQ(bytesOf(path), before) << "recovering saves nothing";
    EXPECT_TRUE(window.save());
    EXPECT_EQ(read_site_file(path.toStdString())->name, "Edited and not saved");
    window.offerLostWork();
    EXPECT_EQ(window.messageBar().text(), QString()) << "it is offered once";
}

}  // namespace
}  // namespace ullage::ui
