// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What the program is built upon, and the licence of each.

#include <QList>
#include <QString>

namespace ullage::ui {

struct UsedWork {
    QString name, licence;  ///< an SPDX expression
};

/// Libraries that are part of the running program, as Debian 12 has them; the source of each line
/// is /usr/share/doc/PACKAGE/copyright.
inline QList<UsedWork> usedWorks() {
    return {{QStringLiteral("Qt"), QStringLiteral("LGPL-3.0-only OR GPL-2.0-only")},
            {QStringLiteral("Qt Charts"), QStringLiteral("GPL-3.0-or-later")},
            {QStringLiteral("Eigen"), QStringLiteral("MPL-2.0")},
            {QStringLiteral("oneTBB"), QStringLiteral("Apache-2.0")},
            {QStringLiteral("JSON for Modern C++"), QStringLiteral("MIT")},
            {QStringLiteral("fmt"), QStringLiteral("MIT")},
            {QStringLiteral("cctz"), QStringLiteral("Apache-2.0")},
            {QStringLiteral("Random123"), QStringLiteral("BSD-3-Clause")},
            {QStringLiteral("tl::expected"), QStringLiteral("CC0-1.0")}};
}

}  // namespace ullage::ui
