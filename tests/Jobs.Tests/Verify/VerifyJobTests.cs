using System.Text;
using Athwart.Jobs.Deliver.Manifests;
using Athwart.Jobs.Tests.Deliver;
using Athwart.Jobs.Verify;

namespace Athwart.Jobs.Tests.Verify;

public sealed class VerifyJobTests : IDisposable
{
    private readonly SmallSession _session = new();
    private readonly Manifest _manifest;

    public VerifyJobTests()
    {
        _session.Add("gate").TakeIn();
        _manifest = _session.Deliver().Manifest;
    }

    private string Stereo => PathOf(_manifest.Files.Single(f => f.Kind == "stereo").Path);

    [Fact]
    public void WhatWasDelivered_IsSound()
    {
        var report = Verify();
        Assert.True(report.IsSound);
        Assert.Equal(_manifest.Files.Count, report.FilesSound);
    }

    [Fact]
    public void OneFlippedBit_IsFound()
    {
        var bytes = File.ReadAllBytes(Stereo);
        bytes[^100] ^= 1;
        File.WriteAllBytes(Stereo, bytes);
        Only(VerifyVerdict.Changed, Path.GetFileName(Stereo));
    }

    [Fact]
    public void AShorterFile_IsFound()
    {
        File.WriteAllBytes(Stereo, File.ReadAllBytes(Stereo)[..^1]);
        Only(VerifyVerdict.Changed, Path.GetFileName(Stereo));
    }

    [Fact]
    public void AMissingFile_IsFound()
    {
        File.Delete(Stereo);
        Only(VerifyVerdict.Missing, Path.GetFileName(Stereo));
    }

    [Fact]
    public void AnAddedFile_IsFound_InAFolderBelowToo()
    {
        Directory.CreateDirectory(PathOf("more"));
        File.WriteAllText(PathOf("more/bonus.wav"), "x");
        Only(VerifyVerdict.Added, "more/bonus.wav");
    }

    [Fact]
    public void ARenamedFile_IsMissingAndAdded()
    {
        File.Move(Stereo, PathOf("other.wav"));
        Assert.Equal([VerifyVerdict.Missing, VerifyVerdict.Added], Verify().Differences.Select(d => d.Verdict).Order());
    }

    [Fact]
    public void AManifestThatWasMadeToFit_IsFound()
    {
        // The file is changed and the manifest's line with it; the digest over all lines tells.
        File.AppendAllText(PathOf("report.html"), " ");
        var files = _manifest.Files.Select(f => f.Path == "report.html"
            ? f with { Bytes = f.Bytes + 1, Sha256 = Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(PathOf("report.html")))) }
            : f).ToList();
        ManifestFiles.Write(_session.Folder, _manifest with { Files = files });
        Only(VerifyVerdict.Changed, Manifest.FileName);
    }

    [Theory]
    [InlineData("../secret.txt")]
    [InlineData("more/../../secret.txt")]
    public void AManifestThatNamesAFileOutside_IsNotFollowed(string path)
    {
        File.WriteAllText(Path.Combine(_session.Root, "secret.txt"), "x");
        WriteWith(path);
        var difference = Assert.Single(Verify().Differences);
        Assert.Equal((VerifyVerdict.Unreadable, path), (difference.Verdict, difference.Path));
        Assert.DoesNotContain("SHA", difference.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public void AManifestThatNamesAnAbsolutePath_IsNotFollowed()
    {
        var outside = Path.Combine(_session.Root, "secret.txt");
        File.WriteAllText(outside, "x");
        WriteWith(outside);
        Assert.Equal(VerifyVerdict.Unreadable, Assert.Single(Verify().Differences).Verdict);
    }

    [Fact]
    public void AFolderWithoutManifest_ADamagedOne_AndANewerOne_AreErrorsOfTheirOwn()
    {
        Assert.Equal(JobErrorKind.WrongUse, Assert.Throws<JobException>(() => VerifyJob.Run(new(_session.Root), null, CancellationToken.None)).Kind);
        var text = File.ReadAllText(PathOf(Manifest.FileName));
        File.WriteAllText(PathOf(Manifest.FileName), text[..(text.Length / 2)]);
        Assert.Contains("damaged", Assert.Throws<JobException>(() => Verify()).Message, StringComparison.Ordinal);
        File.WriteAllText(PathOf(Manifest.FileName), text.Replace("\"athwartManifest\": 1", "\"athwartManifest\": 2", StringComparison.Ordinal), Encoding.UTF8);
        Assert.Contains("newer", Assert.Throws<JobException>(() => Verify()).Message, StringComparison.Ordinal);
    }

    public void Dispose() => _session.Dispose();

    private string PathOf(string file) => Path.Combine(_session.Folder, file);

    private VerifyReport Verify() => VerifyJob.Run(new(_session.Folder), null, CancellationToken.None);

    private void Only(VerifyVerdict verdict, string path)
    {
        var report = Verify();
        Assert.False(report.IsSound);
        var difference = Assert.Single(report.Differences);
        Assert.Equal((verdict, path), (difference.Verdict, difference.Path));
        Assert.NotEmpty(difference.Detail);
    }

    private void WriteWith(string path)
    {
        List<ManifestFile> files = [.. _manifest.Files, new() { Path = path, Kind = "stereo", Bytes = 1, Sha256 = new string('0', 64) }];
        ManifestFiles.Write(_session.Folder, _manifest with { Files = files, Digest = Manifest.DigestOf(files) });
    }
}
