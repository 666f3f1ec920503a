"""What makes a PDF a PDF/X-4 (ISO 15930-7:2010): its press, and what it says of itself.

The date is the design's, the same at every making, and the identifier comes of what is drawn: the
same drawing is the same file.
"""

from __future__ import annotations

import uuid
import zlib
from datetime import UTC, datetime
from pathlib import Path
from xml.sax.saxutils import escape

import pikepdf
from pikepdf import Array, Dictionary, Name

VERSION = "PDF/X-4"
PDF = "1.6"
CONDITION = "FOGRA39"
PROFILE = Path(__file__).parent.parent / "mockup/colour/conditions/FOGRA39L_coated.icc"
# A new moon in the year whose twenty-sixth of September is a Saturday, and the full moon.
DESIGNED = datetime(2026, 5, 16, 20, 1, tzinfo=UTC)
TOOL = "make_art.py"

_XMP = """<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
 <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
  <rdf:Description rdf:about=""
    xmlns:dc="http://purl.org/dc/elements/1.1/"
    xmlns:xmp="http://ns.adobe.com/xap/1.0/"
    xmlns:xmpMM="http://ns.adobe.com/xap/1.0/mm/"
    xmlns:pdf="http://ns.adobe.com/pdf/1.3/"
    xmlns:pdfxid="http://www.npes.org/pdfx/ns/id/">
   <dc:format>application/pdf</dc:format>
   <dc:title><rdf:Alt><rdf:li xml:lang="x-default">{title}</rdf:li></rdf:Alt></dc:title>
   <xmp:CreateDate>{date}</xmp:CreateDate>
   <xmp:ModifyDate>{date}</xmp:ModifyDate>
   <xmp:MetadataDate>{date}</xmp:MetadataDate>
   <xmp:CreatorTool>{tool}</xmp:CreatorTool>
   <xmpMM:DocumentID>uuid:{document}</xmpMM:DocumentID>
   <xmpMM:VersionID>1</xmpMM:VersionID>
   <xmpMM:RenditionClass>default</xmpMM:RenditionClass>
   <pdf:Trapped>False</pdf:Trapped>
   <pdfxid:GTS_PDFXVersion>{version}</pdfxid:GTS_PDFXVersion>
  </rdf:Description>
 </rdf:RDF>
</x:xmpmeta>
<?xpacket end="r"?>
"""


def say_what_it_is(pdf: pikepdf.Pdf, title: str, drawing: bytes) -> None:
    """Writes the output intent, the metadata and their short form in the information dictionary."""
    pdf.Root.OutputIntents = Array([_intent(pdf)])
    xmp = _XMP.format(
        title=escape(title),
        date=DESIGNED.isoformat(),
        tool=TOOL,
        document=uuid.uuid5(uuid.NAMESPACE_OID, title + drawing.hex()),
        version=VERSION,
    )
    metadata = pdf.make_stream(xmp.encode(), Type=Name.Metadata, Subtype=Name.XML)
    pdf.Root.Metadata = pdf.make_indirect(metadata)
    date = DESIGNED.strftime("D:%Y%m%d%H%M%SZ")
    pdf.docinfo["/Title"] = title
    pdf.docinfo["/Creator"] = TOOL
    pdf.docinfo["/CreationDate"] = date
    pdf.docinfo["/ModDate"] = date
    pdf.docinfo["/Trapped"] = Name("/False")
    pdf.docinfo["/GTS_PDFXVersion"] = VERSION


def _intent(pdf: pikepdf.Pdf) -> Dictionary:
    """Returns the output intent: the press that the builds were chosen for, its profile inside."""
    profile = pdf.make_stream(zlib.compress(PROFILE.read_bytes(), 9), N=4, Filter=Name.FlateDecode)
    return Dictionary(
        Type=Name.OutputIntent,
        S=Name.GTS_PDFX,
        OutputConditionIdentifier=CONDITION,
        OutputCondition="Sheet offset on coated paper, ISO 12647-2:2004",
        RegistryName="http://www.color.org",
        Info="Sheet offset on coated paper",
        DestOutputProfile=profile,
    )
