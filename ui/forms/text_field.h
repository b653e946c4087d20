// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A line of text that commits on Enter and when the focus leaves.
///
/// Escape gives back the text of the site. Undo and redo keys act on the text only while it is
/// uncommitted; after that they go to the window's own undo.

#include "ui/forms/field.h"

#include <QLineEdit>

#include <functional>

class QPushButton;

namespace ullage::ui {

class TextField : public Field {
    Q_OBJECT

public:
    struct Binding {
        std::function<QString()> text;                  ///< as the site has it
        std::function<QString(const QString&)> commit;  ///< returns why not, or an empty text
    };

    TextField(const QString& label, const QString& key, Binding binding, QWidget* parent = nullptr);

    QWidget* editor() override { return line_; }
    QLineEdit* line() { return line_; }
    void refresh(bool discard_typed) override;
    void commitPending() override;

    TextField* setPlaceholder(const QString& text);
    /// A small button after the line, `text` as its name; what `ask` returns, unless empty, is
    /// committed.
    TextField* setButton(const QString& text, std::function<QString()> ask);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    Binding binding_;
    QLineEdit* line_;
    QWidget* row_;
    QString shown_;  ///< of the site, when it was shown last
};

}  // namespace ullage::ui
