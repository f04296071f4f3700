#include "table.hpp"

#include <algorithm>

#include "ligament/report.hpp"

namespace ligament::cli {

void write_table(std::ostream& out, const std::vector<std::vector<std::string>>& rows, std::size_t indent,
                 const std::string& alignment) {
    std::vector<std::size_t> widths;
    for (const std::vector<std::string>& row : rows) {
        widths.resize(std::max(widths.size(), row.size()), 0);
        for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], columns_of(row[i]));
    }
    for (const std::vector<std::string>& row : rows) {
        std::string line(indent, ' ');
        for (std::size_t i = 0; i < row.size(); ++i) {
            const std::string gap(widths[i] - columns_of(row[i]), ' ');
            const bool right = i < alignment.size() && alignment[i] == 'r';
            line += right ? gap + row[i] : row[i] + gap;
            line += "  ";
        }
        line.erase(line.find_last_not_of(' ') + 1);
        out << line << '\n';
    }
}

}  // namespace ligament::cli
