// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// An invented site for the tests of the window, and waiting for signals.

#include "core/findings/findings.h"
#include "core/site/site.h"

#include <QTest>

#include <string>

namespace ullage::ui {

/// One item of each kind, two boxes; valid. As of 2026-11-01, UTC.
Site smallSite();

/// An answer to a site without any modelling: one outlook for each box and send.
Answer plainAnswer(const Site& site, int paths);

inline constexpr int wait_ms = 5000;

template <class Condition>
bool eventually(Condition condition) {
    return QTest::qWaitFor(condition, wait_ms);
}

}  // namespace ullage::ui
