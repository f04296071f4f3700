// Where do the pages of a drawing go? To one file, to numbered files beside it, or into a folder.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "ligament/drawing.hpp"
#include "new_folder.hpp"
#include "output.hpp"

namespace ligament::cli {

/// The files of a drawing. What is named is a folder if it ends in / or is one, else a file. Each file is written whole or not at
/// all.
class PageFiles {
  public:
    /// Throws Unusable where a folder is needed and `target` can be none.
    PageFiles(std::string target, bool needs_folder);

    /// Makes the folder, or opens the file. Throws Unusable, naming it and the reason, when that does not work.
    void open();

    /// Writes all pages and says where more than one of them are, a line each. Throws Unusable as Output does, and for several
    /// pages on standard output.
    std::vector<std::string> write(const std::vector<DrawnPage>& pages);

  private:
    std::string target_;
    bool is_folder_ = false;
    std::unique_ptr<NewFolder> folder_;
    std::unique_ptr<Output> first_;
};

}  // namespace ligament::cli
