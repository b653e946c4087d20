// SPDX-License-Identifier: GPL-3.0-or-later
// One font, one locale, no display, settings of its own: the same on every machine.
#include "tests/ui/window/settings_apart.h"

#include <QApplication>
#include <QFont>
#include <QLocale>

#include <gtest/gtest.h>

int main(int argc, char** argv) {
    ::testing::InitGoogleTest(&argc, argv);
    const ullage::ui::SettingsApart settings;
    QLocale::setDefault(QLocale(QLocale::English, QLocale::UnitedKingdom));
    QApplication application(argc, argv);
    QApplication::setFont(QFont(QStringLiteral("DejaVu Sans"), 9));
    return RUN_ALL_TESTS();
}
