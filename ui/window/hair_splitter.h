// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A splitter whose handles are a hairline with room to take hold of.

#include <QSplitter>

namespace ullage::ui {

class HairSplitter : public QSplitter {
    Q_OBJECT

public:
    explicit HairSplitter(Qt::Orientation orientation, QWidget* parent = nullptr);

protected:
    QSplitterHandle* createHandle() override;
};

}  // namespace ullage::ui
