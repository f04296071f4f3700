// Which known name is nearest? The public door to the search that all stages share.
#include "nearest_name.hpp"

#include "ligament/read.hpp"

namespace ligament {

std::string nearest_name(std::string_view name, const std::vector<std::string_view>& known) {
    return find_nearest_name(name, known);
}

}  // namespace ligament
