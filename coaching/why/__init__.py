"""Why a number is what it is: for each kind of derived number the entries it came from, its rule and its arithmetic."""
