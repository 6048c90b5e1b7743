namespace Athwart.Desk.Safety;

/// <summary>The door: refuses strangers before anything else is looked at, and exchanges the link's token for a cookie.</summary>
internal sealed class RequestGuard(RequestDelegate next, RequestRules rules, EntryTokens tokens, VisitCookie visits)
{
    /// <summary>Where the link leads.</summary>
    public const string EntryPath = "/open";

    // The page moves on by itself: a redirect that began on a foreign page would leave a strict cookie behind.
    private const string Welcome = """
        <!doctype html><html lang="en"><head><meta charset="utf-8"><meta http-equiv="refresh" content="0;url=/"><link rel="icon" href="data:,"><title>Athwart</title></head>
        <body><p><a href="/">To the desk</a></p></body></html>
        """;

    public async Task InvokeAsync(HttpContext context)
    {
        if (rules.WhyNot(context.Request, context.Connection.LocalPort) is { } why)
            await Refuse(context, StatusCodes.Status403Forbidden, "Refused", why);
        else if (context.Request.Path.Equals(EntryPath, StringComparison.OrdinalIgnoreCase))
            await Enter(context);
        else if (visits.IsIn(context.Request))
            await next(context);
        else
            await Refuse(context, StatusCodes.Status401Unauthorized, "This browser has not come in yet", "Open the desk by the link that it prints when it starts; the link works once. Run the command 'desk' again for a new one.");
    }

    private async Task Enter(HttpContext context)
    {
        context.Response.Headers.CacheControl = "no-store";
        if (!HttpMethods.IsGet(context.Request.Method) || !tokens.Use(context.Request.Query["key"]))
        {
            // A second click on the link of a browser that is in already goes on.
            if (visits.IsIn(context.Request))
                context.Response.Redirect("/");
            else
                await Refuse(context, StatusCodes.Status401Unauthorized, "This link was used already", "Each link lets one browser in, once, within half an hour. Run the command 'desk' again for a new one.");
            return;
        }

        visits.Set(context.Response);
        context.Response.ContentType = "text/html; charset=utf-8";
        await context.Response.WriteAsync(Welcome, context.RequestAborted);
    }

    private static Task Refuse(HttpContext context, int status, string title, string text)
    {
        context.Response.StatusCode = status;
        context.Response.Headers.CacheControl = "no-store";
        context.Response.ContentType = "text/html; charset=utf-8";
        return context.Response.WriteAsync($"<!doctype html><html lang=\"en\"><head><meta charset=\"utf-8\"><link rel=\"icon\" href=\"data:,\"><title>{title}</title></head><body><main><h1>{title}</h1><p>{text}</p></main></body></html>", context.RequestAborted);
    }
}
