// How do lines of words fill the part of a sheet that is left for them?
#pragma once

#include <span>
#include <string>
#include <vector>

#include "scene.hpp"

namespace ligament {

/// What is said in one go. Too wide for its column it goes on below, and from `most_pieces` on ends in an ellipsis with the whole
/// in its hover title.
struct Said {
    std::string words;  ///< drawable
    double size = 9.5;
    double indent = 0;
    double before = 0;  ///< air above, left out at the top of a column
    Tone tone = Tone::ink;
    bool bold = false;
    bool keep = false;  ///< does not stand last in a column while there are more
    std::string hover;
    About about;

    static constexpr std::size_t most_pieces = 5;
};

Said said(std::string words, double indent = 0, Tone tone = Tone::ink);

/// Bold, with air above, and not the last line of a column.
Said heading(std::string words);

/// A column and the number of lines that stand in it or in columns before.
struct Filled {
    std::size_t next = 0;
    double bottom = 0;  ///< below the last line of this column
};

/// Puts lines from `first` on into a column, whole ones only, and at least one.
Filled fill_column(Scene& scene, const Rect& column, std::span<const Said> lines, std::size_t first);

/// Likewise with columns side by side, none narrower than `narrowest`, evenly filled.
Filled fill_columns(Scene& scene, const Rect& area, double narrowest, std::span<const Said> lines, std::size_t first);

}  // namespace ligament
