// Small files, read and written whole: tables, jobs, pages. Needs a file system; nothing else in files/ does.
#pragma once

#include <sys/stat.h>

#include <cerrno>
#include <cstdio>
#include <string>
#include <string_view>
#include <utility>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// Enough for a chart of the largest size, at four bytes a cell.
inline constexpr std::size_t most_text_bytes = 400'000'000;

/// What the system said, in words.
template <When = When::called>
std::string system_fault(int number) {
  switch (number) {
    case ENOENT:
      return "there is no such file or folder";
    case EACCES:
    case EPERM:
      return "it is not allowed";
    case ENOSPC:
      return "the disk is full";
    case EROFS:
      return "the disk cannot be written to";
    case EISDIR:
      return "it is a folder";
    case ENOTDIR:
      return "a part of the path is no folder";
    case ENAMETOOLONG:
      return "the name is too long";
    case EEXIST:
      return "it exists already";
    case ENOTEMPTY:
      return "the folder is not empty";
    default:
      return "the system gives fault " + std::to_string(number);
  }
}

/// The bytes of a file. Throws Error when it cannot be read, or has more than `limit` bytes: reading stops there.
template <When = When::called>
std::string read_text_file(const std::string& path, std::size_t limit = most_text_bytes);

/// Writes a file; what stood there before is lost. Throws Error when not every byte was taken; then the half-written
/// file is taken away again. `where` is the name for messages, empty for the path.
template <When = When::called>
void write_text_file(const std::string& path, std::string_view bytes, const std::string& where = {});

namespace detail {

/// An open file, closed at the end. (The header of unique_ptr would weigh more than all of this one.)
class FileHandle {
 public:
  explicit FileHandle(std::FILE* file) : file_(file) {}
  FileHandle(const FileHandle&) = delete;
  FileHandle& operator=(const FileHandle&) = delete;
  ~FileHandle() {
    if (file_ != nullptr) std::fclose(file_);
  }
  std::FILE* get() const { return file_; }
  /// Closes it; false where the last bytes could not be handed on.
  bool close() { return std::fclose(std::exchange(file_, nullptr)) == 0; }

 private:
  std::FILE* file_;
};

}  // namespace detail

template <When>
std::string read_text_file(const std::string& path, std::size_t limit) {
  errno = 0;
  const detail::FileHandle file(std::fopen(path.c_str(), "rb"));
  const auto fail = [&] {
    throw Error::bad_input(path, system_fault(errno) + " (reading it)", "check the path and the rights to it");
  };
  if (file.get() == nullptr) fail();
  std::string text;
  char buffer[16384];
  for (;;) {
    errno = 0;
    const std::size_t count = std::fread(buffer, 1, sizeof buffer, file.get());
    text.append(buffer, count);
    if (text.size() > limit) {
      throw Error::bad_input(path, "it is over " + std::to_string(limit) + " bytes long",
                             "check that it is the file that was meant");
    }
    if (count < sizeof buffer) {
      if (std::ferror(file.get()) != 0) fail();
      return text;
    }
  }
}

template <When>
void write_text_file(const std::string& path, std::string_view bytes, const std::string& where) {
  const auto fail = [&](int number) {
    throw Error::bad_output(
        where.empty() ? path : where, system_fault(number) + " (writing it)",
        number == ENOSPC ? "make room, or write to another disk" : "check the path and the rights to it");
  };
  errno = 0;
  detail::FileHandle file(std::fopen(path.c_str(), "wb"));
  if (file.get() == nullptr) fail(errno);
  const bool written = bytes.empty() || std::fwrite(bytes.data(), 1, bytes.size(), file.get()) == bytes.size();
  // Many faults show only when the last bytes are handed on.
  const int fault = written ? 0 : errno;
  errno = 0;
  const bool closed = file.close();
  if (!written || !closed) {
    const int number = written ? errno : fault;
    struct stat status = {};
    if (lstat(path.c_str(), &status) == 0 && S_ISREG(status.st_mode)) std::remove(path.c_str());  // never a device
    fail(number);
  }
}

}  // namespace handlaid
