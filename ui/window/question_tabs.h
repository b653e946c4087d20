// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The pages of the window under their questions: plain words in a row, the present one underlined.

#include <QTabBar>
#include <QTabWidget>

namespace ullage::ui {

class QuestionBar : public QTabBar {
    Q_OBJECT

public:
    explicit QuestionBar(QWidget* parent = nullptr);

protected:
    QSize tabSizeHint(int index) const override;
    void paintEvent(QPaintEvent* event) override;
    void changeEvent(QEvent* event) override;
};

class QuestionTabs : public QTabWidget {
    Q_OBJECT

public:
    explicit QuestionTabs(QWidget* parent = nullptr);
};

}  // namespace ullage::ui
