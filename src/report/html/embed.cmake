# Writes the files CSS and JS as arrays of bytes into the C file TO.
function(array name path into)
  file(READ "${path}" hex HEX)
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," bytes "${hex}")
  string(REGEX REPLACE "(0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,)" "\\1\n" bytes "${bytes}")
  set(${into} "${${into}}\nconst char ${name}[] = {\n${bytes}0};\n" PARENT_SCOPE)
endfunction()

set(text "/* Made by embed.cmake. */\n#include \"report/html/assets.h\"\n")
array(plmi_html_css "${CSS}" text)
array(plmi_html_js "${JS}" text)
file(WRITE "${TO}" "${text}")
