// A single file of results that appears whole or not at all. It is written beside its place and then moved there; what
// goes wrong before leaves what stood there as it was. Needs a file system as POSIX describes it.
#pragma once

#include <sys/stat.h>

#include <cerrno>
#include <cstdio>
#include <string>
#include <string_view>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/text_file.hpp"

namespace handlaid {

/// Begin, then `finish` with the bytes. Begin before long work, so that a place that cannot be written to is known
/// early. Without `finish`, such as when an exception passes by, nothing is left.
class OutputFile {
 public:
  /// Throws Error when `path` is a folder or a link, or nothing can be made beside it. A device is written to directly.
  template <When = When::called>
  explicit OutputFile(const std::string& path) : path_(path) {
    struct stat status = {};
    if (lstat(path.c_str(), &status) == 0) {
      if (S_ISDIR(status.st_mode)) throw Error::bad_output(path, "it is a folder", "give the name of a file");
      if (S_ISLNK(status.st_mode)) throw Error::bad_output(path, "it is a link", "give the file itself");
      if (!S_ISREG(status.st_mode)) return;
    }
    working_ = path + ".part";
    if (lstat(working_.c_str(), &status) == 0) {
      const std::string taken = working_;
      working_.clear();  // not ours to take away
      throw Error::bad_output(path, "\"" + taken + "\" is in the way", "move it away, or give another name");
    }
    try {
      write_text_file(working_, {}, path);
    } catch (const Error&) {
      working_.clear();
      throw;
    }
  }
  OutputFile(const OutputFile&) = delete;
  OutputFile& operator=(const OutputFile&) = delete;
  ~OutputFile() {
    if (!working_.empty()) std::remove(working_.c_str());
  }

  /// Writes the file and moves it into place. Throws Error where not every byte was taken, or it could not be moved;
  /// then what stood there stands there still.
  template <When = When::called>
  void finish(std::string_view bytes) {
    if (working_.empty()) return write_text_file(path_, bytes);
    write_text_file(working_, bytes, path_);
    if (std::rename(working_.c_str(), path_.c_str()) != 0) {
      throw Error::bad_output(path_, system_fault(errno) + " (moving it into place)", "check the rights to its folder");
    }
    working_.clear();
  }

  const std::string& path() const { return path_; }

 private:
  std::string path_;
  std::string working_ = {};
};

}  // namespace handlaid
