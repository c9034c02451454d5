"""What an editor is told: which schema fits which file of the knowledge base."""

from __future__ import annotations

import json

_PLACES = {
    "shop": "shop.yml", "symptoms": "symptoms.yml", "tools": "tools.yml", "materials": "materials.yml",
    "counts": "counts.yml", "device": "devices/*.yml", "procedure": "repairs/*/*.yml", "diagnosis": "diagnosis/*/*.yml",
}  # fmt: skip
SETTINGS = ".vscode/settings.json"
"""Where editors that go by a workspace read the mapping; others go by the first line of each file."""


def mapping(docs: str) -> str:
    """Return the settings of a workspace whose knowledge base lies in *docs*; no schema is fetched from elsewhere."""
    schemas = {f"./schema/{kind}.schema.json": [f"{docs}/{place}"] for kind, place in _PLACES.items()}
    whole = {"yaml.schemas": schemas, "yaml.schemaStore.enable": False, "yaml.validate": True}
    return json.dumps(whole, indent=2) + "\n"
