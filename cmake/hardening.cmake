# What makes a fault in our code, or in the reading of a stranger's file, end the program rather than run what
# the stranger wants. Each is asked of compiler and linker first. docs/decisions.md, "Hardening", says what
# they cost.
include(CheckCCompilerFlag)
include(CheckLinkerFlag)
include(CheckPIESupported)

# Programs at an address of chance. The rooms are position-independent anyhow, for the shared library.
check_pie_supported(LANGUAGES C)

function(pare_harden_compile name)
  check_c_compiler_flag(${ARGN} PARE_HAS_${name})
  if(PARE_HAS_${name})
    add_compile_options($<$<COMPILE_LANGUAGE:C>:${ARGN}>)
  endif()
endfunction()
function(pare_harden_link name)
  check_linker_flag(C ${ARGN} PARE_HAS_${name})
  if(PARE_HAS_${name})
    add_link_options(${ARGN})
  endif()
endfunction()

pare_harden_compile(STACK_PROTECTOR -fstack-protector-strong)
pare_harden_compile(STACK_CLASH -fstack-clash-protection)
pare_harden_compile(CONTROL_FLOW -fcf-protection=full)
pare_harden_link(RELRO -Wl,-z,relro)
pare_harden_link(NOW -Wl,-z,now)
pare_harden_link(STACK -Wl,-z,noexecstack)

# The C library's checked functions need an optimising compiler, and stand in the way of a sanitizer's own.
if(NOT CMAKE_C_FLAGS MATCHES "-fsanitize" AND CMAKE_BUILD_TYPE MATCHES "^(Release|RelWithDebInfo)$")
  foreach(level 3 2)
    check_c_compiler_flag("-O2 -Werror -U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=${level} -include stdio.h"
                          PARE_HAS_FORTIFY_${level})
    if(PARE_HAS_FORTIFY_${level})
      set(PARE_FORTIFY ${level})
      add_compile_options($<$<COMPILE_LANGUAGE:C>:-U_FORTIFY_SOURCE>
                          $<$<COMPILE_LANGUAGE:C>:-D_FORTIFY_SOURCE=${level}>)
      break()
    endif()
  endforeach()
endif()
