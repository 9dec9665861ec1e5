// Reorder by drag. The same moves exist as buttons and as Alt+arrows.
export function enhanceDrag(root, add) {
  for (const list of root.querySelectorAll(".slots")) {
    window.Sortable.create(list, {
      group: "slots",
      handle: ".grip",
      draggable: ".slot",
      animation: 120,
      onEnd(event) {
        if (event.from === event.to && event.oldDraggableIndex === event.newDraggableIndex) return;
        const { slot } = event.item.dataset;
        add({ do: `move-slot;slot=${slot};day=${event.to.dataset.day};index=${event.newDraggableIndex}`, whole: true });
      },
    });
  }
}
