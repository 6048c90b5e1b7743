using Athwart.Jobs.Demo;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.Demo;

/// <summary>One demo card for all tests of it: making it is the slow part.</summary>
public sealed class DemoCardFixture : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public DemoCardFixture() => Report = DemoCard.Write(_folder.Path, Progress);

    public DemoCardReport Report { get; }

    public string Folder => _folder.Path;

    internal CountingProgress Progress { get; } = new();

    public string PathOf(string below) => Path.Combine(_folder.Path, below);

    public void Dispose() => _folder.Dispose();

    internal sealed class CountingProgress : IProgress<DemoProgress>
    {
        private int _count;

        public int Count => _count;

        public void Report(DemoProgress value) => Interlocked.Increment(ref _count);
    }
}
