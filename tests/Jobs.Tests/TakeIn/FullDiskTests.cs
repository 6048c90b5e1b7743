using System.Globalization;
using Athwart.Jobs.TakeIn;
using Athwart.Jobs.Verify;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.TakeIn;

/// <summary>A real small disk that runs full, where this user may mount one.</summary>
public sealed class FullDiskTests : IDisposable
{
    private readonly CardFixture _fixture = new();
    private readonly string _disk;
    private readonly bool _mounted;

    public FullDiskTests()
    {
        _disk = Path.Combine(_fixture.Root, "small disk");
        Directory.CreateDirectory(_disk);
        _mounted = OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess
            && ReferenceProgram.Run("mount", "-t", "tmpfs", "-o", string.Create(CultureInfo.InvariantCulture, $"size={24 << 20}"), "none", _disk).ExitCode == 0;
    }

    [Fact]
    public void TakeIn_DiskThatRunsFull_SaysSo_StaysSound_AndGoesOnWhenThereIsSpace()
    {
        Assert.SkipUnless(_mounted, "a small disk can only be mounted by root on Linux; FaultTests covers the same by the seam");
        for (var i = 0; i < 10; i++)
            _fixture.Add(string.Create(CultureInfo.InvariantCulture, $"TAKES/boat {i}.wav"), 4 << 20, i);
        var request = CardFixture.RequestFor(_fixture.Card, Path.Combine(_disk, "library"));

        // Told before anything is copied...
        Assert.Equal(TakeInErrorKind.NotEnoughSpace, Assert.Throws<TakeInException>(() => CardFixture.Run(request)).Kind);

        // ...and, where the estimate was wrong, at the moment it happens.
        var report = CardFixture.Run(request, new FaultyDisk { Free = long.MaxValue });

        Assert.True(report.DiskFull);
        Assert.InRange(report.Files.Count(f => f.Status == TakenFileStatus.Copied), 3, 6);
        Assert.Contains(report.Files, f => f.Message.Contains("Free some space", StringComparison.Ordinal));
        Assert.Empty(Directory.EnumerateFiles(_disk, "*.part", SearchOption.AllDirectories));
        Assert.Equal(0, ReferenceProgram.Run("mount", "-o", "remount,size=100m", _disk).ExitCode);
        var again = CardFixture.Run(request);
        Assert.True(again.Complete);
        Assert.Equal(report.Files.Count(f => f.IsInLibrary), again.Files.Count(f => f.Status is TakenFileStatus.AlreadyHere or TakenFileStatus.Adopted));
    }

    [Fact]
    public void Deliver_DiskThatRunsFull_DeliversNothing_LeavesNothing_AndDeliversWhenThereIsSpace()
    {
        Assert.SkipUnless(_mounted, "a small disk can only be mounted by root on Linux");
        using var session = new Deliver.SmallSession();
        for (var i = 0; i < 8; i++)
            session.Add(string.Create(CultureInfo.InvariantCulture, $"boat {i}"), frames: 480_000, seed: i);
        session.TakeIn();
        var request = Deliver.SmallSession.RequestFor(session.Library, Path.Combine(_disk, "delivered"));

        Assert.IsAssignableFrom<IOException>(Record.Exception(() => session.Deliver(request)));

        Assert.Empty(Directory.GetFileSystemEntries(_disk));
        Assert.Equal(0, ReferenceProgram.Run("mount", "-o", "remount,size=100m", _disk).ExitCode);
        session.Deliver(request);
        Assert.True(VerifyJob.Run(new(request.Folder), null, CancellationToken.None).IsSound);
    }

    public void Dispose()
    {
        if (_mounted)
            ReferenceProgram.Run("umount", _disk);
        _fixture.Dispose();
    }
}
