using CsCheck;
using Rootgap.Drawings;
using Rootgap.Packets;
using Rootgap.Sheets;
using YamlDotNet.RepresentationModel;
using YamlNode = YamlDotNet.RepresentationModel.YamlNode;

namespace Rootgap.Tests.Drawings;

/// <summary>Laws of editing over all samples: the tree is changed as a plain model of it is, by YamlDotNet's own reading; comments stay; a change taken back restores the text.</summary>
[Trait("pace", "slow")]
public class EditingLawsTest
{
    private static readonly string[] Samples =
        [.. Directory.EnumerateFiles(Repository.At("samples"), "*.yaml", SearchOption.AllDirectories).Order(StringComparer.Ordinal).Select(File.ReadAllText).Where(t => DrawingText.Of(t, "x.yaml").Runs.Count > 0)];

    private static readonly string[] Values =
    [
        "1450", "4'-9 1/2\"", "57-1/2\"", "DN150", "1-1/2", "A106-B", "1:100", "5 %", "a: b", "#x", "x # y", "x #y", "[a", "{b", "a, b", "null", "~", "'", "\"", "\\", "- x", "-", "--- a", "%", "@a", "*a", "&a", "!a", "|", ">",
        "true", "ä ö", "½", "a\tb", "a\nb", "east 600 up 600", "north", "wall 7.11", "6000, 12000", "...", "? x", ":", "x:", "x:y", "`", "\u00a0x", "0x1F", "1e3", "a}b", "a]", "x,",
    ];

    private static readonly Gen<(DrawingText Text, int Op, int A, int B, int C)> Edits =
        Gen.Select(Gen.Int[0, Samples.Length - 1], Gen.Bool, Gen.Int[0, 7], Gen.Int[0, 1000], Gen.Int[0, 1000], Gen.Int[0, 1000])
            .Select((s, windows, op, a, b, c) => (DrawingText.Of(windows ? Samples[s].Replace("\n", "\r\n", StringComparison.Ordinal) : Samples[s], "x.yaml"), op, a, b, c));

    [Fact]
    public void An_edit_changes_the_tree_as_meant_keeps_every_comment_and_can_be_taken_back() => Edits.Holds(
        e =>
        {
            var (text, op, a, b, c) = e;
            var run = a % text.Runs.Count;
            var legs = text.Runs[run].Legs;
            var leg = b % Math.Max(1, legs.Count);
            var model = Model(text.Text);
            var legModel = ((YamlSequenceNode)((YamlMappingNode)((YamlSequenceNode)model.Children["runs"]).Children[run]).Children["legs"]).Children;
            switch (op)
            {
                case 0:
                {
                    var made = text.InsertLeg(run, b % (legs.Count + 1));
                    legModel.Insert(b % (legs.Count + 1), new YamlMappingNode());
                    Same(text, made, model);
                    Assert.Equal(text.Text, made.RemoveLeg(run, b % (legs.Count + 1)).Text);
                    break;
                }

                case 1:
                {
                    if (legs.Count == 0)
                        break;
                    var made = text.RemoveLeg(run, leg);
                    legModel.RemoveAt(leg);
                    Same(text, made, model, lost: text.Text.Split('\n').Skip(legs[leg].Line - 1).Take(1).Sum(l => Comments(l).Count));
                    break;
                }

                case 2:
                {
                    if (legs.Count == 0)
                        break;
                    var to = c % legs.Count;
                    var made = text.MoveLeg(run, leg, to);
                    var moved = legModel[leg];
                    legModel.RemoveAt(leg);
                    legModel.Insert(to, moved);
                    Same(text, made, model);
                    Assert.Equal(text.Text, made.MoveLeg(run, to, leg).Text);
                    break;
                }

                case 3:
                    Same(text, text.AddRun("new: run", "T9"), With(model, "runs", r => ((YamlSequenceNode)r).Add(new YamlMappingNode(new YamlScalarNode("run"), new YamlScalarNode("new: run"), new YamlScalarNode("start"),
                        new YamlMappingNode("from", "T9"), new YamlScalarNode("legs"), new YamlSequenceNode()))));
                    break;
                case 4:
                {
                    // A word as it was typed, under a key that takes any text.
                    var (path, key) = (new[] { ("", "title"), ("service", "fluid"), ($"runs[{run}].legs[{leg}]", "note"), ($"runs[{run}]", "class"), ("", "revision"), ($"runs[{run}].legs[{leg}]", "spool") })[c % 6];
                    var typed = Values[b % Values.Length];
                    var made = text.Set(path, key, typed);
                    Assert.Null(made.Refusal);
                    var node = At(model, path);
                    var (had, old) = (node.Children.TryGetValue(key, out var was), was);
                    node.Children[key] = new YamlScalarNode(typed.Trim());
                    Same(text, made, model, inOrder: false);
                    if (!had)
                        Assert.Equal(text.Text, made.Set(path, key, null).Text);
                    else if (typed[0] is not ('"' or '\'') && text.Text.Contains($"{key}: {old}", StringComparison.Ordinal) && made.Text.Contains($"{key}: {typed}", StringComparison.Ordinal))
                        Assert.Equal(text.Text, made.Set(path, key, ((YamlScalarNode)old!).Value).Text);
                    break;
                }

                case 5:
                {
                    // A key taken out of a leg, and of the line.
                    var path = c % 5 == 0 ? "line" : $"runs[{run}].legs[{leg}]";
                    var node = At(model, path);
                    if (node.Children.Count == 0)
                        break;
                    var key = ((YamlScalarNode)node.Children.Keys.ElementAt(b % node.Children.Count)).Value!;
                    node.Children.Remove(key);
                    Same(text, text.Set(path, key, null), model);
                    break;
                }

                case 6:
                {
                    // A vector, a place and a list.
                    var made = text.Set($"runs[{run}].legs[{leg}]", "go", "e 600 u 4'-2 1/2\"").Set($"runs[{run}].legs[{leg}]", "at", "west 1 north 2");
                    var node = At(model, $"runs[{run}].legs[{leg}]");
                    node.Children["go"] = new YamlMappingNode("east", "600", "up", "4'-2 1/2\"");
                    node.Children["at"] = new YamlMappingNode("west", "1", "north", "2");
                    Same(text, made, model, inOrder: false);
                    break;
                }

                default:
                    if (text.Materials.Count == 0)
                        break;
                    var at = b % text.Materials.Count;
                    var items = ((YamlSequenceNode)model.Children["materials"]).Children;
                    var removed = text.RemoveMaterial(at);
                    items.RemoveAt(at);
                    Same(text, removed, model, lost: Comments(text.Text.Split('\n')[text.Materials[at].Line - 1]).Count);
                    break;
            }
        }, iter: 3000);

    /// <summary>Whatever a text has become, it can be shown: rows, offers, the drawing as far as it goes, its packet and now and then its pictures.</summary>
    [Fact]
    public void Whatever_is_typed_something_is_shown()
    {
        var pictures = 0;
        MutationTest.Damaged.Holds(
            text =>
            {
                var written = DrawingText.Of(text, "m.yaml");
                foreach (var run in written.Runs)
                {
                    Offers.Run(written, run.Index);
                    Offers.Start(written, run.Index);
                    Offers.Leg(written, run.Index, run.Legs.Count);
                    if (run.Legs.Count > 0)
                        Offers.Leg(written, run.Index, text.Length % run.Legs.Count);
                }

                Offers.Line(written);
                Offers.Material(written, 0);
                // What is whole is a packet's own test.
                var reading = written.Read(MutationTest.Beside);
                if (reading is not { Drawing: null, Partial: { } partial })
                    return;
                var packet = Packet.Of(partial);
                if (partial.Runs.Count > 0 && text.Length % 20 == 0)
                {
                    Interlocked.Increment(ref pictures);
                    Assert.NotEmpty(ShopPages.Of(packet.ToJob(Paper.A4)));
                    Assert.NotEmpty(Rootgap.Packets.Model.Glb(packet.Fabrication));
                }
            },
            iter: 2000);
        Assert.True(pictures > 5, $"Only {pictures} pictures were drawn.");
    }

    private static void Same(DrawingText before, DrawingText after, YamlMappingNode meant, int lost = 0, bool inOrder = true)
    {
        Assert.Null(after.Refusal);
        Assert.Equal(Write(meant, inOrder), Write(Model(after.Text), inOrder));
        var (was, now) = (Comments(before.Text), Comments(after.Text));
        if (lost == 0)
            Assert.Equal(was.Order(StringComparer.Ordinal), now.Order(StringComparer.Ordinal));
        else
            Assert.Equal(was.Count - lost, now.Count);
    }

    /// <summary>The comments of a text, by YamlDotNet's scanner.</summary>
    private static List<string> Comments(string text)
    {
        var scanner = new YamlDotNet.Core.Scanner(new StringReader(text.TrimStart(' ')), skipComments: false);
        var comments = new List<string>();
        try
        {
            while (scanner.MoveNext())
            {
                if (scanner.Current is YamlDotNet.Core.Tokens.Comment comment)
                    comments.Add(comment.Value.Trim());
            }
        }
        catch (YamlDotNet.Core.YamlException)
        {
        }

        return comments;
    }

    private static YamlMappingNode Model(string text)
    {
        var stream = new YamlStream();
        stream.Load(new StringReader(text));
        return (YamlMappingNode)stream.Documents[0].RootNode;
    }

    private static YamlMappingNode With(YamlMappingNode model, string key, Action<YamlNode> change)
    {
        change(model.Children[key]);
        return model;
    }

    private static YamlMappingNode At(YamlMappingNode model, string path)
    {
        YamlNode node = model;
        foreach (var step in path.Split(['.', '[', ']'], StringSplitOptions.RemoveEmptyEntries))
            node = node is YamlSequenceNode list ? list.Children[int.Parse(step, System.Globalization.CultureInfo.InvariantCulture)] : ((YamlMappingNode)node).Children[step];
        return (YamlMappingNode)node;
    }

    private static string Write(YamlNode node, bool inOrder) => node switch
    {
        YamlScalarNode s => "\"" + s.Value + "\"",
        YamlSequenceNode l => "[" + string.Join(", ", l.Children.Select(c => Write(c, inOrder))) + "]",
        YamlMappingNode m => "{" + string.Join(", ", m.Children.Select(p => Write(p.Key, inOrder) + ": " + Write(p.Value, inOrder)).OrderBy(t => inOrder ? "" : t, StringComparer.Ordinal)) + "}",
        _ => "?",
    };
}
