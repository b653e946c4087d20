// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/kept_list.h"

#include <algorithm>

namespace ullage {

const BoxOutlook* box_of(const KeptOutlook& kept, const std::string& name) {
    const auto& boxes = kept.answer->outlook.boxes;
    const auto at = std::find_if(boxes.begin(), boxes.end(),
                                 [&](const BoxOutlook& box) { return box.name == name; });
    return at == boxes.end() ? nullptr : &*at;
}

QStringList KeptList::names() const {
    QStringList names;
    for (const KeptOutlook& kept : all_) names << kept.name;
    return names;
}

const KeptOutlook* KeptList::chosen() const {
    return has(chosen_) ? &all_[static_cast<std::size_t>(chosen_)] : nullptr;
}

QString KeptList::freshName() const {
    const QStringList taken = names();
    for (int number = 1;; ++number) {
        const QString name = tr("Kept %1").arg(number);
        if (!taken.contains(name)) return name;
    }
}

void KeptList::keep(KeptOutlook outlook) {
    const QStringList taken = names();
    const QString wanted = outlook.name.simplified();
    outlook.name = wanted.isEmpty() ? freshName() : wanted;
    for (int number = 2; taken.contains(outlook.name); ++number)
        outlook.name = tr("%1 (%2)", "a name that is taken, a number").arg(wanted).arg(number);
    all_.push_back(std::move(outlook));
    chosen_ = static_cast<int>(all_.size()) - 1;
    emit changed();
}

void KeptList::choose(int index) {
    if (index == chosen_ || (index != -1 && !has(index))) return;
    chosen_ = index;
    emit changed();
}

bool KeptList::rename(int index, const QString& name) {
    const QString wanted = name.simplified();
    if (!has(index) || wanted.isEmpty()) return false;
    KeptOutlook& kept = all_[static_cast<std::size_t>(index)];
    if (kept.name == wanted) return true;
    if (names().contains(wanted)) return false;
    kept.name = wanted;
    emit changed();
    return true;
}

void KeptList::drop(int index) {
    if (!has(index)) return;
    all_.erase(all_.begin() + index);
    if (chosen_ == index)
        chosen_ = -1;
    else if (chosen_ > index)
        --chosen_;
    emit changed();
}

void KeptList::clear() {
    if (all_.empty()) return;
    all_.clear();
    chosen_ = -1;
    emit changed();
}

}  // namespace ullage
