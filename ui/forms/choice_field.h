// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A field for one of a few choices, whose list may follow the site (the names of its boxes).

#include "ui/forms/field.h"

#include <QList>

#include <functional>

class QComboBox;

namespace ullage::ui {

struct Choice {
    QString value;  ///< handed on; for names of items the name itself
    QString text;   ///< shown
    bool operator==(const Choice&) const = default;
};

class ChoiceField : public Field {
    Q_OBJECT

public:
    struct Binding {
        std::function<QList<Choice>()> choices;
        std::function<QString()> value;
        std::function<QString(const QString&)> commit;  ///< returns why not, or an empty text
    };

    ChoiceField(const QString& label, const QString& key, Binding binding,
                QWidget* parent = nullptr);

    QWidget* editor() override;
    void refresh(bool discard_typed) override;

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    Binding binding_;
    QComboBox* combo_;
    QList<Choice> shown_;
};

}  // namespace ullage::ui
