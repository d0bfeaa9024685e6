// A folder for what is being worked on, beside where it will stand; gone with everything in it at the end.
#pragma once

#include <filesystem>
#include <string>

namespace heatwork::records {

class OwnFolder {
 public:
  /// Sweeps what a killed program left in such a folder more than a day before. Errors: StoreError refused, full.
  explicit OwnFolder(const std::filesystem::path& in);
  ~OwnFolder();
  OwnFolder(const OwnFolder&) = delete;
  OwnFolder& operator=(const OwnFolder&) = delete;
  [[nodiscard]] std::string file(const std::string& name) const { return path_ + "/" + name; }

 private:
  std::string path_;
};

}  // namespace heatwork::records
