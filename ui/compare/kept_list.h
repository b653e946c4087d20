// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The outlooks kept of one site, in the order they were kept, and which of them is compared with.
///
/// Invariants: names are not empty and differ; at most one is chosen, and it is in the list.

#include "ui/compare/kept_outlook.h"

#include <QObject>
#include <QStringList>

#include <optional>
#include <vector>

namespace ullage {

class KeptList : public QObject {
    Q_OBJECT

public:
    using QObject::QObject;

    const std::vector<KeptOutlook>& all() const { return all_; }
    QStringList names() const;
    /// Index of the one compared with; −1: none.
    int chosenIndex() const { return chosen_; }
    /// Null: none is chosen. Valid until the list changes.
    const KeptOutlook* chosen() const;
    /// A name that is not taken yet, for the next.
    QString freshName() const;

    /// Appends and chooses it. Where the name is empty or taken another is made from it.
    void keep(KeptOutlook outlook);
    /// −1 compares with none; other indices out of range are ignored.
    void choose(int index);
    /// False if the name is empty or another's: nothing changes then.
    bool rename(int index, const QString& name);
    /// Forgets one; if it was chosen, none is.
    void drop(int index);
    /// Forgets all: another site.
    void clear();

signals:
    /// The list, a name or the choice.
    void changed();

private:
    bool has(int index) const { return index >= 0 && index < static_cast<int>(all_.size()); }

    std::vector<KeptOutlook> all_;
    int chosen_ = -1;
};

}  // namespace ullage
