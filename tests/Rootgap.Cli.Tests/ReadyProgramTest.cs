namespace Rootgap.Cli.Tests;

/// <summary>Most tests call a program that stands ready; here it is held against one that is begun for the call, as its user has it.</summary>
public class ReadyProgramTest
{
    [Theory]
    [InlineData(0, "check good.yaml")]
    [InlineData(1, "check warned.yaml")]
    [InlineData(2, "check broken.yaml --json")]
    [InlineData(3, "check unread.yaml")]
    [InlineData(64, "check")]
    [InlineData(0, "packet good.yaml --out p")]
    [InlineData(2, "packet good.yaml broken.yaml --out p --json")]
    [InlineData(0, "cut good.yaml --stock rack.yaml --out p")]
    [InlineData(0, "fit good.yaml --joint W2 --json")]
    public void It_ends_and_says_and_writes_as_one_that_is_begun_for_the_call(int exit, string command)
    {
        var (ready, own) = (Made(shop => shop.Run(command.Split(' '))), Made(shop => shop.Begin(null, command.Split(' '))));
        Assert.Equal(exit, own.Call.Exit);
        Assert.Equal(own.Call, ready.Call);
        Assert.Equal(own.Files.Keys.Order(StringComparer.Ordinal), ready.Files.Keys.Order(StringComparer.Ordinal));
        Assert.All(own.Files, f => Assert.True(f.Value.AsSpan().SequenceEqual(ready.Files[f.Key]), f.Key));
    }

    private static (Call Call, Dictionary<string, byte[]> Files) Made(Func<Shop, Call> call)
    {
        using var shop = new Shop();
        shop.Write("good.yaml", Shop.Drawing("G-1"));
        shop.Write("warned.yaml", Shop.Drawing("G-2", extra: "shop: {final fit extra: 0}").Replace("to: elbow}", "to: elbow, end: final-fit}", StringComparison.Ordinal));
        shop.Write("broken.yaml", Shop.Drawing("G-3", by: "100"));
        shop.Write("unread.yaml", "drawing: [");
        shop.Write("rack.yaml", File.ReadAllText(Repository.At("samples", "hatchery", "rack.yaml")));
        var made = call(shop);
        return (made with { Out = made.Out.Replace(shop.Folder, "", StringComparison.Ordinal), Error = made.Error.Replace(shop.Folder, "", StringComparison.Ordinal) },
            Directory.EnumerateFiles(shop.Folder, "*", SearchOption.AllDirectories).ToDictionary(f => Path.GetRelativePath(shop.Folder, f), File.ReadAllBytes, StringComparer.Ordinal));
    }
}
