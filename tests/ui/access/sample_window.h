// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Each sample site in a window of 1280 × 800, answered by the model, gone through page by page.

#include "ui/window/main_window.h"

#include <QLatin1String>
#include <QString>
#include <QStringList>

#include <gtest/gtest.h>

#include <functional>
#include <string>
#include <vector>

namespace ullage::ui {

/// File names without their ending, sorted.
std::vector<std::string> sampleNames();

class EverySample : public ::testing::TestWithParam<std::string> {
protected:
    void SetUp() override;

    /// Calls `look` on each page of the answer, with the page's name; the panes stand beside it.
    void onEachPage(const std::function<void(const QString& page)>& look);
    /// Calls `look` with each kind of form open, with the item's pointer.
    void onEachForm(const std::function<void(const QString& pointer)>& look);

    MainWindow window{Settings{}};
};

/// Lets what was posted happen: layouts, painting.
void settle();

/// What a failure says of a widget: class, name, the names of those it stands in.
std::string pathOf(const QWidget& widget);

}  // namespace ullage::ui
