# Warnings that have found real faults, all of them errors. Kept on our own targets only.
add_library(pare_warnings INTERFACE)
target_compile_options(pare_warnings INTERFACE
  -Wall -Wextra -Werror -Wconversion -Wshadow -Wformat=2 -Wundef -Wvla -Wcast-qual
  -Wcast-align -Wwrite-strings -Wstrict-prototypes -Wmissing-prototypes -Wold-style-definition
  -Wpointer-arith -Wdouble-promotion -Wimplicit-fallthrough -Wredundant-decls
  # A newer Debian's library may deprecate what an older one has no other name for (expat's positions).
  -Wno-deprecated-declarations)
# clang, which only fuzzes, sees conversions otherwise; gcc and the linter judge the same lines.
target_compile_options(pare_warnings INTERFACE $<$<C_COMPILER_ID:Clang>:-w>)
