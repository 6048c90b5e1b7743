namespace Athwart.Jobs.TakeIn;

/// <summary>What is on a card: regular files to take in, and what is left alone. Links are never followed, so a listing always ends.</summary>
internal sealed class CardListing
{
    private readonly List<CardFile> _files = [];
    private readonly List<SkippedEntry> _skipped = [];

    public IReadOnlyList<CardFile> Files => _files;

    public IReadOnlyList<SkippedEntry> Skipped => _skipped;

    public static CardListing Of(IReadOnlyList<string> sources)
    {
        var listing = new CardListing();
        foreach (var source in sources)
            listing.AddSource(source);
        return listing;
    }

    private void AddSource(string source)
    {
        // A link given by name was meant; a link met on the card was not.
        var full = RealPath(Path.GetFullPath(source));
        if (Directory.Exists(full))
            AddFolder(new DirectoryInfo(full), full, isRoot: true);
        else if (File.Exists(full))
            AddFile(new FileInfo(full), Path.GetFileName(full));
        else
            throw new TakeInException(TakeInErrorKind.CardNotFound, source, "There is no such card, folder or file.", "Check that the card is in the reader and mounted, and the path.");
    }

    private void AddFolder(DirectoryInfo folder, string root, bool isRoot = false)
    {
        List<FileSystemInfo> entries;
        try
        {
            entries = [.. folder.EnumerateFileSystemInfos()];
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            if (isRoot)
                throw new TakeInException(TakeInErrorKind.CardNotFound, root, $"The card cannot be listed ({error.Message}).", "Check the rights and the reader.", error);
            _skipped.Add(new(Relative(root, folder.FullName), SkipReason.UnreadableFolder, $"The folder cannot be listed ({error.Message}); what is in it was not taken in."));
            return;
        }

        foreach (var entry in entries.OrderBy(e => e.Name, StringComparer.Ordinal))
            AddEntry(entry, root);
    }

    private void AddEntry(FileSystemInfo entry, string root)
    {
        var cardPath = Relative(root, entry.FullName);
        if (SystemNames.Contains(entry))
            _skipped.Add(new(cardPath, SkipReason.Hidden, "A hidden or system entry of the recorder or a computer; not taken in."));
        else if (entry.LinkTarget is not null)
            _skipped.Add(Link(entry, cardPath, root));
        else if (entry is DirectoryInfo folder)
            AddFolder(folder, root);
        else
            AddFile((FileInfo)entry, cardPath);
    }

    private void AddFile(FileInfo file, string cardPath)
    {
        if (OperatingSystem.IsLinux() && !LinuxCalls.IsRegularFile(file.FullName))
            _skipped.Add(new(cardPath, SkipReason.NotAFile, "Neither a file nor a folder (a pipe or a device); not opened."));
        else if (PartNames.IsPart(file.Name))
            _skipped.Add(new(cardPath, SkipReason.UnfinishedCopy, "An unfinished copy that a take-in left; not taken in."));
        else
            _files.Add(new(file.FullName, cardPath, file.Length, new DateTimeOffset(file.LastWriteTimeUtc, TimeSpan.Zero)));
    }

    private static SkippedEntry Link(FileSystemInfo entry, string cardPath, string root)
    {
        string? target = null;
        try
        {
            target = entry.ResolveLinkTarget(returnFinalTarget: true)?.FullName;
        }
        catch (IOException)
        {
            // A circle of links leads nowhere, so certainly not to something on the card.
        }

        var within = target is not null && RealPath(target).StartsWith(root + Path.DirectorySeparatorChar, StringComparison.Ordinal);
        return within
            ? new(cardPath, SkipReason.LinkWithinCard, "A symbolic link to something on the card, which is taken in itself.")
            : new(cardPath, SkipReason.LinkOutOfCard, $"A symbolic link that leads out of the card, to '{entry.LinkTarget}'; not followed.");
    }

    private static string Relative(string root, string path) => Path.GetRelativePath(root, path).Replace(Path.DirectorySeparatorChar, '/');

    /// <summary>The path with every link in it resolved, folder by folder.</summary>
    public static string RealPath(string path)
    {
        var parent = Path.GetDirectoryName(Path.TrimEndingDirectorySeparator(path));
        if (parent is null)
            return path;
        var here = Path.Combine(RealPath(parent), Path.GetFileName(Path.TrimEndingDirectorySeparator(path)));
        FileSystemInfo info = Directory.Exists(here) ? new DirectoryInfo(here) : new FileInfo(here);
        return info.LinkTarget is null ? here : info.ResolveLinkTarget(returnFinalTarget: true)?.FullName ?? here;
    }
}
