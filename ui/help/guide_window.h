// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The guide: its sections at the left, the chosen one at the right. It stays open beside the
/// window.

#include <QDialog>
#include <QString>

class QListWidget;
class QTextBrowser;

namespace ullage::ui {

class GuideWindow : public QDialog {
    Q_OBJECT

public:
    explicit GuideWindow(QWidget* parent = nullptr);

    /// Shows a section; an unknown one shows the first.
    void showSection(const QString& id);
    /// Of the section shown.
    QString section() const;

private:
    void fill(int row);

    QListWidget* contents_;
    QTextBrowser* text_;
};

}  // namespace ullage::ui
