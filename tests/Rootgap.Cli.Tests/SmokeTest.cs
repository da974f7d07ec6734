namespace Rootgap.Cli.Tests;

public class RepositoryTest
{
    [Fact]
    public void The_repository_is_found() => Assert.True(File.Exists(Repository.At("Rootgap.slnx")));
}
