# Installs the build into an empty prefix, builds project/ against it and compares what it prints.
cmake_minimum_required(VERSION 3.25)
file(REMOVE_RECURSE ${WORK})
file(MAKE_DIRECTORY ${WORK})

function(run)
  execute_process(COMMAND ${ARGN} COMMAND_ECHO STDOUT COMMAND_ERROR_IS_FATAL ANY)
endfunction()

run(${CMAKE_COMMAND} --install ${BUILD} --prefix ${WORK}/prefix --config ${CONFIG})
run(${CMAKE_COMMAND} -S ${PROJECT} -B ${WORK}/build -G ${GENERATOR} -DCMAKE_PREFIX_PATH=${WORK}/prefix -DCMAKE_CXX_COMPILER=${COMPILER}
    -DCMAKE_BUILD_TYPE=${CONFIG})
run(${CMAKE_COMMAND} --build ${WORK}/build --config ${CONFIG})

# Nothing of the build may be needed once it is installed.
file(STRINGS ${WORK}/build/CMakeCache.txt found REGEX "^ligament_DIR")
if(NOT found MATCHES "${WORK}/prefix")
  message(FATAL_ERROR "the consumer found another ligament: ${found}")
endif()

execute_process(COMMAND ${WORK}/build/consumer ${RIG} ${WORK}/rig.svg OUTPUT_VARIABLE said RESULT_VARIABLE status)
file(READ ${PROJECT}/expected.txt expected)
if(NOT status EQUAL 0 OR NOT said STREQUAL expected)
  message(FATAL_ERROR "status ${status}, said:\n${said}\nexpected:\n${expected}")
endif()
file(READ ${WORK}/rig.svg svg)
if(NOT svg MATCHES "<svg.*plan of its groups.*</svg>")
  message(FATAL_ERROR "the drawing is not there: ${svg}")
endif()

# The program, and the schema beside it, are installed too.
execute_process(COMMAND ${WORK}/prefix/bin/ligament schema OUTPUT_VARIABLE printed COMMAND_ERROR_IS_FATAL ANY)
file(GLOB_RECURSE schema ${WORK}/prefix/*/rig_description.schema.json)
file(READ "${schema}" published)
if(NOT printed STREQUAL published)
  message(FATAL_ERROR "the installed schema is not the one that the program prints")
endif()

# So are completions for three shells and the manual page: what the installed program says.
foreach(file "bash-completion/completions/ligament completion bash" "zsh/site-functions/_ligament completion zsh"
             "fish/vendor_completions.d/ligament.fish completion fish" "man/man1/ligament.1 manual")
  separate_arguments(call UNIX_COMMAND "${file}")
  list(POP_FRONT call path)
  execute_process(COMMAND ${WORK}/prefix/bin/ligament ${call} OUTPUT_VARIABLE printed COMMAND_ERROR_IS_FATAL ANY)
  file(READ ${WORK}/prefix/share/${path} installed)
  if(printed STREQUAL "" OR NOT printed STREQUAL installed)
    message(FATAL_ERROR "the installed ${path} is not what the program prints")
  endif()
endforeach()
