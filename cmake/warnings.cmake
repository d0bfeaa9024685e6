# Warnings are errors where g++ builds what users run. Builds for sanitizers, coverage and fuzzing change the code under the compiler's eyes and bring
# false alarms; they judge behaviour, and take the warnings as judged.
option(HEATWORK_STRICT "Warnings are errors" ON)

function(heatwork_warnings target)
  if(HEATWORK_STRICT)
    target_compile_options(${target} PRIVATE -Wall -Wextra -Wpedantic -Werror -Wshadow -Wconversion -Wno-sign-conversion
      -Wnon-virtual-dtor -Wold-style-cast -Woverloaded-virtual)
  else()
    target_compile_options(${target} PRIVATE -w)
  endif()
  target_compile_options(${target} PRIVATE -fno-math-errno)
endfunction()
