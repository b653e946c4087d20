// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A field of check boxes: any of a list that may follow the site (the datasets that a send
/// carries).

#include "ui/forms/field.h"

#include <QStringList>

#include <functional>

class QCheckBox;
class QVBoxLayout;

namespace ullage::ui {

class ChecksField : public Field {
    Q_OBJECT

public:
    struct Binding {
        std::function<QStringList()> names;    ///< all there are
        std::function<QStringList()> checked;  ///< those chosen
        std::function<QString(const QString& name, bool on)> commit;
    };

    ChecksField(const QString& label, const QString& key, Binding binding,
                QWidget* parent = nullptr);

    QWidget* editor() override { return box_; }
    void refresh(bool discard_typed) override;

private:
    Binding binding_;
    QWidget* box_;
    QVBoxLayout* rows_;
    QList<QCheckBox*> checks_;
    QStringList shown_;
};

}  // namespace ullage::ui
