// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// An open file of the system, closed when it goes, and the system's words.

#include <sys/stat.h>
#include <unistd.h>

#include <cstring>
#include <string>

namespace ullage {

class FileHandle {
public:
    explicit FileHandle(int number) : number_(number) {}
    FileHandle(const FileHandle&) = delete;
    FileHandle& operator=(const FileHandle&) = delete;
    ~FileHandle() {
        if (number_ >= 0) ::close(number_);
    }
    int number() const { return number_; }
    bool open() const { return number_ >= 0; }
    bool close() {
        const int result = ::close(number_);
        number_ = -1;
        return result == 0;
    }

private:
    int number_;
};

inline std::string system_says(int code) { return std::strerror(code); }

inline std::string not_regular(mode_t mode) {
    return S_ISDIR(mode) ? "is a folder, not a file" : "is not a regular file";
}

}  // namespace ullage
