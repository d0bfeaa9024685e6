# g++ is the judge of warnings. The fuzzers are built by clang, which sees them differently and judges bytes, not style.
function(heatwork_warnings target)
  if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    target_compile_options(${target} PRIVATE -Wall -Wextra -Wpedantic -Werror -Wshadow -Wconversion -Wno-sign-conversion
      -Wnon-virtual-dtor -Wold-style-cast -Woverloaded-virtual -Wnull-dereference)
  else()
    target_compile_options(${target} PRIVATE -w)
  endif()
  target_compile_options(${target} PRIVATE -fno-math-errno)
endfunction()
