// Show only the fields that describe the chosen kind of equipment. Without this script all of them are there.
const kind = document.getElementById("id_kind");
const parts = [...document.querySelectorAll("#equipment-form [data-kinds]")];

function show() {
  for (const part of parts) {
    part.hidden = !part.dataset.kinds.split(" ").includes(kind.value);
  }
}

kind.addEventListener("change", show);
show();
