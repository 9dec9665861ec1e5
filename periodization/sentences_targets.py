"""English templates of what publications say about weekly sets."""

TARGET_SENTENCES: dict[str, str] = {
    "opinion_best_supported": "At least {floor} sets a week best supported",
    "opinion_trained_young_men": "{floor} to {ceiling} suggested for trained young men",
    "opinion_over_for_triceps": "Over {floor} favoured for triceps only",
    "opinion_most_of_three": "{floor} or more gained most of three levels",
    "opinion_detectable": "Growth from about {floor}, efficient from 5 to {ceiling}",
    "opinions_spread": "{count} opinions, from {lowest} to {highest} sets and more",
}
