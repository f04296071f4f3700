// What does the reader say about each of many texts? Reads texts that end with a NUL from standard input; writes one line a text,
// "good", or "bad" and the first fault.
#include <iostream>
#include <iterator>
#include <string>

#include "ligament/read.hpp"

int main() {
    const std::string input{std::istreambuf_iterator<char>(std::cin), {}};
    for (std::size_t at = 0; at < input.size();) {
        const std::size_t end = std::min(input.find('\0', at), input.size());
        const ligament::ReadResult result = ligament::read_rig(std::string_view(input).substr(at, end - at));
        if (result.rig)
            std::cout << "good\n";
        else
            std::cout << "bad " << result.faults.front().place.line << ":" << result.faults.front().place.column << ": "
                      << result.faults.front().message << "\n";
        at = end + 1;
    }
}
