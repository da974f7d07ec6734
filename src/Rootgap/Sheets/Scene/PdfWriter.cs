using System.Collections.Immutable;
using System.Globalization;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;

namespace Rootgap.Sheets;

/// <summary>Writes scenes into a PDF 1.7 file, page by page straight to a stream, so that a packet of any length holds one page in memory.
/// The same scenes give the same bytes: no date, no random name; the file's id is a hash of what is in it.</summary>
/// <remarks>ISO 32000-1. Dispose writes the fonts, the outline and the end of the file; the stream stays open and need not be able to seek.</remarks>
public sealed class PdfWriter : IDisposable
{
    private const int PagesPerNode = 32;

    private readonly Stream _stream;
    private readonly string _title;
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private readonly List<long> _offsets = [0]; // by object number; 0 is the head of the free list
    private readonly PdfFont _regular = new(FontFace.Regular);
    private readonly PdfFont _bold = new(FontFace.Bold);
    private readonly Utf8Text _content = new();
    private readonly MemoryStream _packed = new();
    private readonly PdfPage _page;
    private readonly List<(int Number, List<int> Kids)> _nodes = []; // lowest level of the page tree
    private readonly List<(Bookmark Bookmark, int Page, double Y)> _outline = [];
    private readonly int _regularNumber;
    private readonly int _boldNumber;
    private readonly int _resources;
    private long _length;
    private bool _done;

    public PdfWriter(Stream stream, string title)
    {
        (_stream, _title) = (stream, title);
        _page = new(_content, _regular, _bold);
        // The second line tells programs that move files that this one is not text (7.5.2).
        Put("%PDF-1.7\n%"u8);
        Put([0xe2, 0xe3, 0xcf, 0xd3, (byte)'\n']);
        _regularNumber = Reserve();
        _boldNumber = Reserve();
        _resources = Reserve();
    }

    /// <summary>How many pages have been written.</summary>
    public int Pages { get; private set; }

    /// <summary>A whole file at once.</summary>
    public static void Write(Stream stream, string title, IEnumerable<Scene> scenes)
    {
        using var pdf = new PdfWriter(stream, title);
        foreach (var scene in scenes)
            pdf.Add(scene);
    }

    /// <summary>Writes the next page. Nothing of the scene is kept but its bookmarks.</summary>
    public void Add(Scene scene) => Bind(Lay(scene), [], scene.Bookmarks);

    /// <summary>Writes what stands on a page whose place in the file is not known yet: <see cref="Bind"/> puts it there.</summary>
    public LaidPage Lay(Scene scene)
    {
        ObjectDisposedException.ThrowIf(_done, this);
        _page.Start(scene.Paper);
        foreach (var mark in scene.Marks)
            mark.DrawOn(_page);
        return new(AddStream("", _content.Written), scene.Paper);
    }

    /// <summary>Puts a page that was laid after those that are bound already.</summary>
    /// <param name="over">What is drawn over it: its number, which was not known when it was laid.</param>
    /// <param name="bookmarks">Entries of the outline that lead to it.</param>
    public void Bind(LaidPage laid, ImmutableArray<Mark> over, IEnumerable<Bookmark> bookmarks)
    {
        ObjectDisposedException.ThrowIf(_done, this);
        var contents = Text($"{laid.Content} 0 R");
        if (!over.IsEmpty)
        {
            _page.GoOn();
            foreach (var mark in over)
                mark.DrawOn(_page);
            contents = Text($"[{contents} {AddStream("", _content.Written)} 0 R]");
        }

        if (_nodes.Count == 0 || _nodes[^1].Kids.Count == PagesPerNode)
            _nodes.Add((Reserve(), []));
        var (w, h) = (Points(laid.Paper.Width), Points(laid.Paper.Height));
        var page = AddObject(Text($"<</Type/Page/Parent {_nodes[^1].Number} 0 R/MediaBox[0 0 {w} {h}]/Resources {_resources} 0 R/Contents {contents}>>"));
        _nodes[^1].Kids.Add(page);
        foreach (var bookmark in bookmarks)
            _outline.Add((bookmark, page, laid.Paper.Height - bookmark.Y));
        Pages++;
    }

    /// <summary>Ends the file.</summary>
    public void Dispose()
    {
        if (_done)
            return;
        _done = true;
        WriteEnd();
        _hash.Dispose();
        _packed.Dispose();
    }

    private void WriteEnd()
    {
        var fonts = new StringBuilder();
        foreach (var (font, number, name) in new[] { (_regular, _regularNumber, "R"), (_bold, _boldNumber, "B") })
        {
            Define(number, font.IsUsed ? font.Describe(AddObject, (entries, bytes) => AddStream(entries, bytes)) : "null");
            if (font.IsUsed)
                fonts.Append(CultureInfo.InvariantCulture, $"/{name} {number} 0 R");
        }
        Define(_resources, $"<</Font<<{fonts}>>>>");
        var pages = WritePageTree();
        var outline = WriteOutline();
        var info = AddObject($"<</Title {TextString(_title)}/Producer(Rootgap)>>");
        var catalog = AddObject(Text($"<</Type/Catalog/Pages {pages} 0 R/Lang(en)/ViewerPreferences<</DisplayDocTitle true>>{(outline > 0 ? Text($"/PageMode/UseOutlines/Outlines {outline} 0 R") : "")}>>"));

        var start = _length;
        var id = Convert.ToHexString(_hash.GetCurrentHash().AsSpan(0, 16));
        Put(Text($"xref\n0 {_offsets.Count}\n0000000000 65535 f \n"));
        foreach (var offset in _offsets.Skip(1))
            Put(Text($"{offset:0000000000} 00000 n \n"));
        Put(Text($"trailer\n<</Size {_offsets.Count}/Root {catalog} 0 R/Info {info} 0 R/ID[<{id}><{id}>]>>\nstartxref\n{start}\n%%EOF\n"));
        _stream.Flush();
    }

    // Nodes of a few dozen, level by level, so that a reader finds page 30,000 in three steps.
    private int WritePageTree()
    {
        var level = _nodes.Select(n => (n.Number, n.Kids, Count: n.Kids.Count)).ToList();
        if (level.Count == 0)
            level.Add((Reserve(), [], 0));
        while (level.Count > 1)
        {
            var above = level.Chunk(PagesPerNode).Select(c => (Number: Reserve(), Kids: c.Select(n => n.Number).ToList(), Count: c.Sum(n => n.Count))).ToList();
            for (var i = 0; i < level.Count; i++)
                WriteNode(level[i], Text($"/Parent {above[i / PagesPerNode].Number} 0 R"));
            level = above;
        }
        WriteNode(level[0], "");
        return level[0].Number;
    }

    private void WriteNode((int Number, List<int> Kids, int Count) node, string parent) =>
        Define(node.Number, Text($"<</Type/Pages{parent}/Kids[{string.Join(' ', node.Kids.Select(k => Text($"{k} 0 R")))}]/Count {node.Count}>>"));

    /// <summary>The outline's number, or 0 where there are no bookmarks. Sections are shown, what is in them is folded.</summary>
    private int WriteOutline()
    {
        if (_outline.Count == 0)
            return 0;
        var root = new OutlineNode(Reserve(), 0, null);
        var last = root;
        foreach (var (bookmark, page, y) in _outline)
        {
            while (last.Level >= bookmark.Level && last.Parent is not null)
                last = last.Parent;
            var node = new OutlineNode(Reserve(), Math.Max(1, bookmark.Level), last)
            {
                Entry = Text($"/Title {TextString(bookmark.Title)}/Dest[{page} 0 R/XYZ null {Points(y)} null]"),
            };
            last.Kids.Add(node);
            last = node;
        }
        Define(root.Number, Text($"<</Type/Outlines/First {root.Kids[0].Number} 0 R/Last {root.Kids[^1].Number} 0 R/Count {root.Kids.Count}>>"));
        WriteKids(root);
        return root.Number;
    }

    private void WriteKids(OutlineNode parent)
    {
        for (var i = 0; i < parent.Kids.Count; i++)
        {
            var node = parent.Kids[i];
            var body = new StringBuilder("<<").Append(node.Entry).Append(CultureInfo.InvariantCulture, $"/Parent {parent.Number} 0 R");
            if (i > 0)
                body.Append(CultureInfo.InvariantCulture, $"/Prev {parent.Kids[i - 1].Number} 0 R");
            if (i < parent.Kids.Count - 1)
                body.Append(CultureInfo.InvariantCulture, $"/Next {parent.Kids[i + 1].Number} 0 R");
            if (node.Kids.Count > 0)
                body.Append(CultureInfo.InvariantCulture, $"/First {node.Kids[0].Number} 0 R/Last {node.Kids[^1].Number} 0 R/Count {-node.Kids.Count}");
            Define(node.Number, body.Append(">>").ToString());
            WriteKids(node);
        }
    }

    private int Reserve()
    {
        _offsets.Add(-1);
        return _offsets.Count - 1;
    }

    private int AddObject(string body)
    {
        var number = Reserve();
        Define(number, body);
        return number;
    }

    private void Define(int number, string body)
    {
        _offsets[number] = _length;
        Put(Text($"{number} 0 obj\n{body}\nendobj\n"));
    }

    private int AddStream(string entries, ReadOnlySpan<byte> bytes)
    {
        _packed.SetLength(0);
        using (var zlib = new ZLibStream(_packed, CompressionLevel.Optimal, leaveOpen: true))
            zlib.Write(bytes);
        var number = Reserve();
        _offsets[number] = _length;
        Put(Text($"{number} 0 obj\n<</Filter/FlateDecode/Length {_packed.Length}{entries}>>stream\n"));
        Put(_packed.GetBuffer().AsSpan(0, (int)_packed.Length));
        Put("\nendstream\nendobj\n"u8);
        return number;
    }

    private void Put(string ascii) => Put(Encoding.ASCII.GetBytes(ascii));

    private void Put(ReadOnlySpan<byte> bytes)
    {
        _stream.Write(bytes);
        _hash.AppendData(bytes);
        _length += bytes.Length;
    }

    private static string Points(double mm) => (mm * 72 / 25.4).ToString("0.###", CultureInfo.InvariantCulture);

    /// <summary>A text string as UTF-16 with its mark, in hexadecimal: any language, nothing to escape.</summary>
    private static string TextString(string text) => "<FEFF" + Convert.ToHexString(Encoding.BigEndianUnicode.GetBytes(text)) + ">";

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private sealed class OutlineNode(int number, int level, OutlineNode? parent)
    {
        public int Number => number;
        public int Level => level;
        public OutlineNode? Parent => parent;
        public string Entry { get; init; } = "";
        public List<OutlineNode> Kids { get; } = [];
    }
}

/// <summary>A page that is written and not bound yet.</summary>
/// <param name="Content">Number of its content in the file.</param>
public readonly record struct LaidPage(int Content, Paper Paper);
