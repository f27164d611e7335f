"""A report as read back by the checks."""

import re
from html.parser import HTMLParser


class Page(HTMLParser):
    """Collects what the checks look at."""

    def __init__(self, text):
        super().__init__()
        self.tags, self.ids, self.headings, self.words = [], [], [], []
        self.joined = False
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        self.tags.append((tag, given))
        self.joined = tag == "wbr"
        if "id" in given:
            self.ids.append(given["id"])
        if re.fullmatch("h[1-6]", tag):
            self.headings.append(int(tag[1]))

    def handle_data(self, data):
        if self.joined:  # a place where a line may break, not a space
            self.words[-1] += data
        else:
            self.words.append(data)
        self.joined = False

    def all(self, tag):
        return [given for found, given in self.tags if found == tag]

    @property
    def text(self):
        return " ".join(" ".join(self.words).split())
