// Where do the pages of a drawing go?
#include "page_files.hpp"

#include <filesystem>
#include <utility>

#include "ligament/report.hpp"
#include "status.hpp"

namespace ligament::cli {

namespace {

/// "wing-2.svg" for the second page of "wing.svg".
std::string numbered(const std::string& file, std::size_t number) {
    const std::filesystem::path path(file);
    return (path.parent_path() / (path.stem().string() + "-" + std::to_string(number) + path.extension().string())).string();
}

void write_one(Output& output, const DrawnPage& page) {
    output.stream() << page.svg;
    output.commit();
}

}  // namespace

PageFiles::PageFiles(std::string target, bool needs_folder) : target_(std::move(target)) {
    std::error_code ignored;
    is_folder_ = target_.ends_with('/') || std::filesystem::is_directory(target_, ignored);
    if (needs_folder && !is_folder_)
        throw Unusable("--view all writes many pages: name a folder, as in -o " + (target_ == "-" ? "pages" : target_) + "/");
}

void PageFiles::open() {
    if (!is_folder_) {
        first_ = std::make_unique<Output>(target_);
        return;
    }
    folder_ = std::make_unique<NewFolder>(target_);
}

std::vector<std::string> PageFiles::write(const std::vector<DrawnPage>& pages) {
    if (!is_folder_) {
        if (target_ == "-" && pages.size() > 1)
            throw Unusable("the drawing takes " + std::to_string(pages.size()) +
                           " pages, and standard output takes one: name a file");
        std::string names = target_;
        write_one(*first_, pages.front());
        for (std::size_t i = 1; i < pages.size(); ++i) {
            const std::string name = numbered(target_, i + 1);
            Output output(name);
            write_one(output, pages[i]);
            names += ", " + name;
        }
        if (pages.size() == 1) return {};
        return {std::to_string(pages.size()) + " pages: " + names};
    }
    const std::filesystem::path folder(target_);
    for (const DrawnPage& page : pages) {
        Output output((folder / (page.name + ".svg")).string());
        write_one(output, page);
    }
    return {counted_text(pages.size(), "page") + " in " + target_};
}

}  // namespace ligament::cli
