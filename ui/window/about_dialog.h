// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Version, licence, and the cautions that belong to every forecast.

#include <QDialog>

namespace ullage::ui {

class AboutDialog : public QDialog {
    Q_OBJECT

public:
    explicit AboutDialog(QWidget* parent = nullptr);
};

}  // namespace ullage::ui
