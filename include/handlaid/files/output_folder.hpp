// A folder of results that appears whole or not at all. Files are written to a folder beside it, which is then moved
// into place; what goes wrong before leaves nothing behind. Needs a file system as POSIX describes it.
#pragma once

#include <dirent.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/text_file.hpp"

namespace handlaid {

/// How an existing folder is treated.
struct OutputFolderOptions {
  /// Take the place of a folder that has files in it. It is removed once the new one stands.
  bool replace = false;
  /// The names of files that an earlier run may have left: a folder that holds anything else is never replaced.
  /// Empty: any file, but no folder, may be in it.
  std::vector<std::string> known = {};
};

/// Begin, `write` each file, `finish`. Without `finish`, such as when an exception passes by, everything is taken away.
class OutputFolder {
 public:
  /// Makes the folder that is written to. Throws Error when `path` is a file, a link, a folder with something in it
  /// that may not be replaced, or has no name of its own (".", ".."), and when nothing can be made beside it.
  template <When = When::called>
  explicit OutputFolder(const std::string& path, OutputFolderOptions options = {});
  OutputFolder(const OutputFolder&) = delete;
  OutputFolder& operator=(const OutputFolder&) = delete;
  ~OutputFolder() {
    if (!working_.empty()) remove_flat(working_);
  }

  /// Writes a file of the folder. Throws Error where the name is not a plain one, or not every byte was taken.
  template <When = When::called>
  void write(const std::string& name, std::string_view bytes) {
    if (name.empty() || name == "." || name == ".." || name.find('/') != name.npos) {
      throw Error::bad_output(path_ + "/" + name, "this is no plain file name", "give a name without folders");
    }
    write_text_file(file(name), bytes, path_ + "/" + name);
  }
  /// Where a file of that name stands until `finish`, for writers that take a path.
  std::string file(const std::string& name) const { return working_ + "/" + name; }

  /// Moves the folder into place and removes the one it replaces. Throws Error where that is not possible; then the
  /// old one stands where it stood.
  template <When = When::called>
  void finish();

  const std::string& path() const { return path_; }

 private:
  enum class Kind { nothing, folder, link, other };

  template <When = When::called>
  static Kind kind_of(const std::string& path) {
    struct stat status = {};
    if (lstat(path.c_str(), &status) != 0) return Kind::nothing;
    if (S_ISLNK(status.st_mode)) return Kind::link;
    return S_ISDIR(status.st_mode) ? Kind::folder : Kind::other;
  }

  /// Names in a folder, "." and ".." left out.
  template <When = When::called>
  static std::vector<std::string> names_in(const std::string& folder) {
    std::vector<std::string> names;
    DIR* const opened = opendir(folder.c_str());
    if (opened == nullptr) {
      throw Error::bad_output(folder, system_fault(errno) + " (looking into it)",
                              "check the path and the rights to it");
    }
    while (const dirent* entry = readdir(opened)) {
      const std::string name(static_cast<const char*>(entry->d_name));
      if (name != "." && name != "..") names.push_back(name);
    }
    closedir(opened);
    return names;
  }

  /// Removes a folder and the files in it, but no folder in it; does what it can.
  template <When = When::called>
  static void remove_flat(const std::string& folder) noexcept {
    try {
      for (const std::string& name : names_in(folder)) unlink((folder + "/" + name).c_str());
    } catch (...) {
    }
    rmdir(folder.c_str());
  }

  template <When = When::called>
  void check_replaceable() const {
    const std::vector<std::string> names = names_in(path_);
    if (names.empty()) return;
    if (!options_.replace) {
      throw Error::bad_output(path_, "the folder is there and has files in it",
                              "give another folder, or ask for it to be replaced");
    }
    for (const std::string& name : names) {
      const bool known = options_.known.empty() ||
                         std::find(options_.known.begin(), options_.known.end(), name) != options_.known.end();
      if (known && kind_of(path_ + "/" + name) != Kind::folder) continue;
      throw Error::bad_output(path_, "it holds \"" + name + "\", which is not of an earlier run and would be lost",
                              "move it away, or give another folder");
    }
  }

  /// A name beside the folder that nothing has yet, from `take(name)`, which makes it or sets errno.
  template <class Take>
  std::string take_beside(const char* ending, Take&& take) const {
    for (int i = 1; i < 1000; ++i) {
      std::string name = path_ + ending;
      if (i > 1) name += "-" + std::to_string(i);
      if (take(name)) return name;
      if (errno != EEXIST && errno != ENOTEMPTY) break;
    }
    throw Error::bad_output(path_, system_fault(errno) + " (making a folder beside it)",
                            "give a folder inside one that exists and can be written to");
  }

  std::string path_;
  OutputFolderOptions options_;
  std::string working_ = {};
};

template <When>
OutputFolder::OutputFolder(const std::string& path, OutputFolderOptions options)
    : path_(path), options_(std::move(options)) {
  while (path_.size() > 1 && path_.ends_with('/')) path_.pop_back();
  const std::string last = path_.substr(path_.rfind('/') + 1);
  if (last.empty() || last == "." || last == "..") {
    throw Error::bad_output("\"" + path + "\"", "the folder has no name of its own", "give a name, like out");
  }
  switch (kind_of(path_)) {
    case Kind::nothing:
      break;
    case Kind::folder:
      check_replaceable();
      break;
    case Kind::link:
      throw Error::bad_output(path_, "it is a link", "give the folder itself");
    case Kind::other:
      throw Error::bad_output(path_, "it is a file", "give the name of a folder");
  }
  working_ = take_beside(".part", [](const std::string& name) { return mkdir(name.c_str(), 0777) == 0; });
}

template <When>
void OutputFolder::finish() {
  std::string old;
  if (kind_of(path_) == Kind::folder) {
    check_replaceable();  // again: somebody may have put something there meanwhile
    old = take_beside(".old", [&](const std::string& name) {
      if (kind_of(name) != Kind::nothing) {
        errno = EEXIST;
        return false;
      }
      return std::rename(path_.c_str(), name.c_str()) == 0;
    });
  }
  if (std::rename(working_.c_str(), path_.c_str()) != 0) {
    const int number = errno;
    if (!old.empty()) std::rename(old.c_str(), path_.c_str());
    throw Error::bad_output(path_, system_fault(number) + " (moving it into place)", "check the rights to its folder");
  }
  working_.clear();
  if (!old.empty()) remove_flat(old);
}

}  // namespace handlaid
